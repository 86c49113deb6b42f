package phrase_test

import (
	"testing"

	"halfturn/stream/phrase"
)

func flown(label string, value float64, digits int, unit string, wanted phrase.Phrase) phrase.Phrase {
	return phrase.Flown.Of(phrase.Part("label", phrase.Plain(label)), phrase.Number("flown", value, digits, unit),
		phrase.Part("wanted", wanted))
}

func between(low, high float64, unit string) phrase.Phrase {
	return phrase.Between.Of(phrase.Number("low", low, 0, unit), phrase.Number("high", high, 0, unit))
}

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
		"Knock off: stalled": phrase.KnockedOff.Of(phrase.Part("reason", phrase.Stalled.Of())),
		"Bank at 90°: 107°, wanted 60 to 88°; with it came lowest speed: 94.6 kt at 86° of turn, wanted at " +
			"most 85 kt, N1 held, mostly: −3%, wanted −2 to 2%": phrase.WithIt.Of(
			phrase.Part("shown", flown("Bank at 90°", 107, 0, "°", between(60, 88, "°"))),
			phrase.Within("came",
				phrase.FlownAt.Of(
					phrase.Part("label", phrase.Plain("Lowest speed")),
					phrase.Number("flown", 94.6, 1, "kt"),
					phrase.Number("turn", 86, 0, "°"),
					phrase.Part("wanted", phrase.AtMost.Of(phrase.Number("high", 85, 0, "kt")))),
				flown("N1 held, mostly", -3, 0, "%", between(-2, 2, "%")))),
		"leg 2, verdict: near, was met": phrase.Differs.Of(phrase.Int("leg", 2),
			phrase.Part("label", phrase.TheVerdict.Of()), phrase.Part("is", phrase.IsNear.Of()),
			phrase.Part("was", phrase.IsMet.Of())),
		"leg 1, Bank at 90°: not judged, was met, 70°": phrase.Differs.Of(phrase.Int("leg", 1),
			phrase.Part("label", phrase.Plain("Bank at 90°")), phrase.Part("is", phrase.NotJudged.Of()),
			phrase.Part("was", phrase.JudgedAs.Of(
				phrase.Part("verdict", phrase.IsMet.Of()), phrase.Number("value", 70, 0, "°")))),
		"what nobody says, or not so": phrase.Plain("what nobody says, or not so"),
		"what nobody says. At all":    phrase.Plain("what nobody says. At all"),
	} {
		if got := phrase.Read(text); !got.Equal(want) || inJSON(t, got) != inJSON(t, want) {
			t.Errorf("%q is read as %s; must be %s", text, inJSON(t, got), inJSON(t, want))
		}
	}
	if !phrase.Joined().IsZero() {
		t.Error("no phrases say something")
	}
}

// A label goes on in a sentence whatever letter it begins with: one of more than a byte, a capital that is kept.
func TestLower(t *testing.T) {
	for label, want := range map[string]string{
		"Bank at 90°":   "bank at 90°",
		"Überziehfahrt": "überziehfahrt",
		"Élan":          "élan",
		"ß":             "ß",
		"N1 held":       "N1 held",
		"RPM":           "RPM",
		"":              "",
	} {
		if got := phrase.Lower(label); got != want {
			t.Errorf("Lower(%q) = %q; must be %q", label, got, want)
		}
	}
}
