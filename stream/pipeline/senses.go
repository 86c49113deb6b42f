package pipeline

import (
	"fmt"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A Sign says how the sign of an angle that a sender gives is taken.
type Sign uint8

// The signs.
const (
	AsSent   Sign = iota // right bank positive, nose up positive, as the decoders expect
	Reversed             // reversed before anything else uses it
	Auto                 // reversed when the flight shows that it must be
)

var signNames = [...]string{"as-sent", "reversed", "auto"}

// String returns the sign as it is written in the configuration.
func (s Sign) String() string { return signNames[min(s, Auto)] }

// SignNamed reads a sign as written in the configuration.
func SignNamed(name string) (Sign, error) {
	for s, n := range signNames {
		if n == name {
			return Sign(s), nil
		}
	}
	return AsSent, fmt.Errorf("is %q; must be as-sent, reversed or auto", name)
}

// A sense watches whether one angle has the sign that the flight shows it must have: in a turn the nose moves toward
// the lower wing, and in a steep climb the nose is up. It counts seconds for and against.
type sense struct {
	told   Sign
	turned bool    // the sign is reversed now
	right  float64 // s of flight in which the angle as sent agrees
	wrong  float64 // s in which it disagrees
	firm   float64 // s of wrong that unusual flying cannot explain
}

// What settles a sense, in seconds of such flight: common practice, no source. Uncoordinated
// flight can disagree for a moment, so that disagreement must outweigh agreement by far.
const (
	senseTime  = 5.0
	senseFirm  = 2.0
	senseRatio = 4.0
	senseKept  = 60.0 // the counts are halved here, so that a change of aircraft is noticed
)

// add counts dt seconds of flight, and returns true when that turned the sign (Auto only).
func (s *sense) add(dt float64, agrees, firm bool) bool {
	if agrees {
		s.right += dt
	} else {
		s.wrong += dt
		if firm {
			s.firm += dt
		}
	}
	if s.right+s.wrong > senseKept {
		s.right, s.wrong, s.firm = s.right/2, s.wrong/2, s.firm/2
	}
	if s.told != Auto || !s.disagrees() {
		return false
	}
	s.turned = !s.turned
	return true
}

func (s *sense) isReversed() bool {
	return s.wrong >= senseTime && s.firm >= senseFirm && s.wrong > senseRatio*s.right
}

func (s *sense) isRight() bool { return s.right >= senseTime && s.right > senseRatio*s.wrong }

// disagrees reports whether the angle as it is used now has the wrong sign.
func (s *sense) disagrees() bool {
	if s.turned {
		return s.isRight() // as sent it would be right
	}
	return s.isReversed()
}

// senses are the two angles whose sign senders are known to get wrong, with their values in the last sample.
type senses struct {
	bank, pitch sense
	running     bool
	time        float64
	heading     float64
}

func (s *senses) tell(bank, pitch Sign) {
	s.bank = sense{told: bank, turned: bank == Reversed}
	s.pitch = sense{told: pitch, turned: pitch == Reversed}
}

// apply reverses the signs that need it. The sign of a rate about the same axis is then unknown, so the rate is dropped
// and derived from the attitude.
func (s *senses) apply(sample *stream.Sample) {
	if s.bank.turned {
		sample.Negate(stream.Bank)
		sample.Drop(stream.RollRate)
	}
	if s.pitch.turned {
		sample.Negate(stream.Pitch)
		sample.Drop(stream.PitchRate)
	}
}

// watch looks at an accepted sample that is complete, and returns in plain words which sign
// it turned; nil for none, the usual case.
func (s *senses) watch(sample *stream.Sample, jumped bool) *phrase.Definition {
	now, heading := sample.Value(stream.Time), sample.Value(stream.Heading)
	dt := now - s.time
	turn := stream.Wrap180(heading - s.heading)
	usable := s.running && !jumped && dt > 0 && dt < 1 && sample.Has.Has(stream.Heading)
	s.time, s.heading, s.running = now, heading, true
	if !usable || sample.Value(stream.OnGround) != 0 {
		return nil
	}
	if s.watchBank(sample, dt, turn/dt) {
		return phrase.BankTurnedRound
	}
	if s.watchPitch(sample, dt) {
		return phrase.PitchTurnedRound
	}
	return nil
}

// watchBank compares bank with the turn: in coordinated level flight, the heading changes by
// g tan(bank)/V toward the lower wing (any text on flight mechanics, such as FAA-H-8083-3C,
// chapter 10). Beyond 75° of bank or 45° of pitch, heading and bank are hardly related.
func (s *senses) watchBank(sample *stream.Sample, dt, rate float64) bool {
	bank, pitch := sample.Value(stream.Bank), sample.Value(stream.Pitch)
	if !sample.Has.Has(stream.Bank) || math.Abs(bank) < 8 || math.Abs(bank) > 75 || math.Abs(pitch) > 45 ||
		math.Abs(rate) < 1 || math.Abs(rate) > 60 {
		return false
	}
	return s.bank.add(dt, (bank > 0) == (rate > 0) != s.bank.turned, true)
}

// watchPitch compares pitch with the flight path: pitch is path angle plus angle of attack, so the nose is up in a
// steep climb. A descent with the nose up (mushing) happens; a climb with the nose down does not, so it is decisive.
func (s *senses) watchPitch(sample *stream.Sample, dt float64) bool {
	const (
		knot   = 101.2686            // ft/min: 6076.12 ft / 60 min
		steep  = 0.10452846326765347 // sin 6°
		little = 5.0                 // ° of pitch
	)
	pitch := sample.Value(stream.Pitch)
	if math.Abs(pitch) < little || math.Abs(sample.Value(stream.Bank)) > 75 {
		return false // also without a pitch
	}
	speed := 0.0
	for _, c := range [...]stream.Channel{stream.TrueAirspeed, stream.Airspeed, stream.GroundSpeed} {
		if speed = sample.Value(c); speed > 30 {
			break
		}
	}
	climb := sample.Value(stream.VerticalSpeed)
	if speed <= 30 || math.Abs(climb) < steep*speed*knot {
		return false
	}
	return s.pitch.add(dt, (pitch > 0) == (climb > 0) != s.pitch.turned, climb > 0)
}

// advice says what to do about a wrong sign, nothing when all is well.
func (s *senses) advice() phrase.Phrase {
	switch bank, pitch := &s.bank, &s.pitch; {
	case bank.disagrees() && bank.turned:
		return phrase.BankAsSent.Of()
	case bank.disagrees():
		return phrase.BankReversed.Of()
	case pitch.disagrees() && pitch.turned:
		return phrase.PitchAsSent.Of()
	case pitch.disagrees():
		return phrase.PitchReversed.Of()
	}
	return phrase.Phrase{}
}
