package callout

// How much is said in flight, besides safety and how a leg went, which are always said.
const (
	PromptsCard = "card" // as the standard has it
	PromptsAll  = "all"  // every cue of every leg, and what leaves its corridor
	PromptsFade = "fade" // the cue of a point falls silent once it was met, and returns when it is missed
	PromptsOff  = "off"  // nothing
)

// Prompts lists the choices.
func Prompts() []string { return []string{PromptsCard, PromptsAll, PromptsFade, PromptsOff} }
