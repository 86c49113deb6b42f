package phrase_test

import (
	"testing"

	"halfturn/stream/phrase"
)

// What versions without codes wrote into reports and logbooks is read as the phrases of which it was put together.
func TestReadPutTogether(t *testing.T) {
	finished := phrase.LegsFinished.Of(phrase.Int("done", 1), phrase.Int("legs", 2))
	ball := phrase.BallLeft.Of(phrase.Number("turn", 97, 0, "°"), phrase.Part("motion", phrase.Skid.Of()),
		phrase.Part("widths", phrase.Widths.Of(phrase.Number("widths", 1.5, 1, ""))))
	for text, want := range map[string]phrase.Phrase{
		"gap of 3.2 s in the stream":    phrase.Gap.Of(phrase.Number("gap", 3.2, 1, "s")),
		"the turn did not reach 22.5°":  phrase.NotReached.Of(phrase.Number("turn", 22.5, 1, "°")),
		"the stream had no climb there": phrase.LackedThere.Of(phrase.Part("what", phrase.Plain("climb"))),
		"1 of 2 legs finished, one to the left is missing, " +
			"the turn to the left was too shallow to count": phrase.Joined(
			finished, phrase.OneToLeft.Of(), phrase.TooShallowLeft.Of()),
		"worst at 97°: skid, the ball 1.5 widths to the left; more left rudder. " +
			"Ease the right rudder held against the propeller first": phrase.Propeller.Of(
			phrase.Part("ball", ball), phrase.Part("propeller", phrase.EaseRight.Of())),
		"what nobody says, or not so": phrase.Plain("what nobody says, or not so"),
		"what nobody says. At all":    phrase.Plain("what nobody says. At all"),
	} {
		if got := phrase.Read(text); !got.Equal(want) || inJSON(t, got) != inJSON(t, want) {
			t.Errorf("%q is read as %s, want %s", text, inJSON(t, got), inJSON(t, want))
		}
	}
	if !phrase.Joined().IsZero() {
		t.Error("no phrases say something")
	}
}
