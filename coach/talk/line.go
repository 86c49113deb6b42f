package talk

import (
	"fmt"
	"math"
	"strings"

	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A line is what has been said in a leg and what is to be said next.
type line struct {
	Leg
	state
	cue   int // cue that the average voice says next
	sent  int // cue to be sent next
	cues  []spoken
	said  int       // corrections
	due   []float64 // by check, ° of turn from which its point is passed; +Inf: never, or done
	first float64   // the least of them
	watch []watch
	// stalling is since when a stall is coming; NaN while it is not.
	stalling float64
	posts    []float64 // turn angles of the checkpoints
}

func newLine(card *maneuver.Card, leg Leg) *line {
	l := &line{Leg: leg, stalling: math.NaN()}
	l.cues = make([]spoken, len(card.AllCues))
	l.due = make([]float64, len(card.Checks))
	for i := range card.Checks {
		l.due[i] = math.Inf(1)
		if at, ok := kinds.Of(&card.Checks[i]).Known.On(&card.Checks[i]); ok {
			l.due[i] = at
		}
	}
	l.watch = make([]watch, len(card.Watches))
	for i := range card.Watches {
		ch, _ := stream.ChannelNamed(card.Watches[i].Channel)
		l.watch[i] = watch{channel: ch, since: math.NaN(), far: math.NaN()}
	}
	for _, p := range card.Checkpoints {
		l.posts = append(l.posts, p.Turn)
	}
	l.findFirst()
	return l
}

// skip passes over the cues and points of the turn that was flown before the leg committed itself.
func (l *line) skip(card *maneuver.Card, turn float64) {
	for l.cue < len(card.AllCues) && card.AllCues[l.cue].Turn <= turn {
		l.cue++
	}
	l.sent = max(l.sent, l.cue)
	for i := range l.due {
		if l.due[i] <= turn {
			l.due[i] = math.Inf(1)
		}
	}
	l.findFirst()
}

func (l *line) findFirst() {
	l.first = math.Inf(1)
	for _, at := range l.due {
		l.first = min(l.first, at)
	}
}

// next returns the turn angle of the checkpoint to come.
func (l *line) next(turn float64) float64 {
	for _, at := range l.posts {
		if at > turn {
			return at
		}
	}
	return math.Inf(1)
}

// before returns the turn angle of the last checkpoint ahead of a cue's.
func (l *line) before(turn float64) (last float64) {
	for _, at := range l.posts {
		if at < turn {
			last = at
		}
	}
	return last
}

// expand fills in what the card has said, with the heading and the pivotal altitude spoken figure by figure. Without
// either there is nothing to say.
func (t *Talk) expand(say string, turn float64) phrase.Phrase {
	if !strings.Contains(say, "{") {
		return phrase.Plain(say)
	}
	entry := t.leg.Entry().Sample.Value(stream.Heading)
	heading := int(math.Round(stream.Wrap360(entry+t.leg.Side()*turn))) % 360
	if heading == 0 {
		heading = 360
	}
	pivotal := ""
	if strings.Contains(say, "{pivotal}") {
		ft, ok := t.leg.Pivotal(turn)
		if !ok {
			return phrase.Phrase{}
		}
		pivotal = figures(fmt.Sprint(10 * math.Round(ft/10)))
	}
	return t.plan.Phrase(say, turn, phrase.Words("heading", figures(fmt.Sprintf("%03d", heading))),
		phrase.Words("pivotal", pivotal))
}

// figures writes a number of up to four figures as it is spoken: figure by figure.
func figures(number string) string {
	if len(number) > 4 {
		return number
	}
	return strings.Join(strings.Split(number, ""), " ")
}
