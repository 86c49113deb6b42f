package talk

import (
	"halfturn/coach"
	"halfturn/coach/callout"
)

// stopStands is how long the words that stop the pilot are shown, s of the stream: as long as those of the hard deck.
const stopStands = deckAfter

// A stop is the callout by which a person stopped the pilot.
type stop struct {
	shown bool
	said  float64
}

// Tell says what a person has to say to the pilot.
func (t *Talk) Tell(by, words string) {
	t.voice.Tell(t.now, words)
	t.put(coach.Callout{Kind: coach.Said, ID: coach.Said, Words: words, By: by})
}

// Chose says where the point on the ground is that was chosen: below, or off the wing "left" or "right"; "" is nowhere.
// Whoever chooses it by a button looks outside.
func (t *Talk) Chose(where string, pylon bool) {
	words := sayPoint[where][0]
	if pylon {
		words = sayPoint[where][1]
	}
	if !t.voice.Say(t.now, callout.CueLevel, words) {
		t.voice.Append(t.now, words)
	}
	t.put(coach.Callout{Kind: coach.Done, ID: "about", Words: words})
}

// Stop says that a person stops the pilot. Cues that wait are taken back.
func (t *Talk) Stop(by string) {
	if t.leg != nil {
		t.withdraw()
	}
	t.voice.Say(t.now, callout.SafetyLevel, sayKnockOff)
	t.stop = stop{shown: true, said: t.now}
	t.put(coach.Callout{
		Kind:  coach.Safety,
		ID:    coach.KnockedOff,
		Words: sayKnockOff,
		By:    by,
		Tone:  "safety",
	})
}

// watchStop takes the words that stopped the pilot down once they have been shown for long enough.
func (t *Talk) watchStop() {
	if t.stop.shown && t.now-t.stop.said >= stopStands {
		t.clearStop()
	}
}

func (t *Talk) clearStop() {
	if t.stop.shown {
		t.put(coach.Callout{Kind: coach.Clear, ID: coach.KnockedOff})
	}
	t.stop = stop{}
}
