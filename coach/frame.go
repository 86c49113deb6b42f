package coach

// A Frame is where the flight stands now: everything a panel shows that is not an event.
// Values of channels the stream lacks are absent.
type Frame struct {
	Time      float64            `json:"time"`
	State     string             `json:"state"` // "set-up", "turn" (not yet a leg), "leg", "after"
	Direction string             `json:"direction"`
	Turn      float64            `json:"turn"`   // °, since the reference heading, positive in the direction
	Phase     string             `json:"phase"`  // the card's name for this span
	Values    map[string]float64 `json:"values"` // by channel name; in a turn, bank and ball positive toward it
	Climb     *float64           `json:"climb"`  // ft since the entry, in a turn
	Stall     *float64           `json:"stall"`  // kt above the stall speed at this load factor
	Deck      *float64           `json:"deck"`   // ft above the hard deck
	Point     *float64           `json:"point"`  // °, where the reference point stands from the nose, right positive
	Next      *Next              `json:"next"`   // the next checkpoint of a leg
	Gates     []Gate             `json:"gates"`  // while level
	Ready     bool               `json:"ready"`
}

// Next is the checkpoint that comes next.
type Next struct {
	Turn    float64  `json:"turn"`    // the card's full turn for the exit
	Label   string   `json:"label"`   // "135°", "out"
	Words   string   `json:"words"`   // what to look for: "rolling out, nose lowest"
	Want    string   `json:"want"`    // the numbers: "bank 45°, nose 17° down"
	Seconds *float64 `json:"seconds"` // until it comes at the turn rate of now; null when not turning
	Point   float64  `json:"point"`   // °, where the reference point should stand from the nose then, right positive
}
