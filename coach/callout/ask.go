package callout

import "slices"

// An Ask is what a phrase asks of the pilot: what is held against the flight when the phrase is heard. The cards
// declare it for each phrase that is said in flight.
type Ask string

// What phrases ask.
const (
	NoseUp        Ask = "nose-up"         // more back pressure
	NoseDown      Ask = "nose-down"       // less back pressure, or forward
	BankMore      Ask = "bank-more"       // a steeper bank
	BankLess      Ask = "bank-less"       // a shallower bank, also a quicker roll-out
	RollSlower    Ask = "roll-slower"     // the bank grows too fast
	RollOutSlower Ask = "roll-out-slower" // the bank comes off too fast
	BankAim       Ask = "bank-aim"        // the bank of the turn angle the phrase belongs to
	NoseAim       Ask = "nose-aim"        // the nose of the turn angle the phrase belongs to
	WingsLevel    Ask = "wings-level"     // wings level on a heading
	RollOut       Ask = "roll-out"        // to begin to take the bank off
	HoldHeight    Ask = "hold-height"     // the height of the entry
	PowerMore     Ask = "power-more"
	PowerLess     Ask = "power-less"
	PowerBack     Ask = "power-back" // the power of the entry
	Ball          Ask = "ball"       // rudder on the side of the ball
	Push          Ask = "push"       // less angle of attack, in any attitude
	EasePush      Ask = "ease-push"  // less of a push
	Nothing       Ask = "nothing"    // it tells where the turn is, and asks for no movement
)

var asks = []Ask{NoseUp, NoseDown, BankMore, BankLess, RollSlower, RollOutSlower, BankAim, NoseAim, WingsLevel, RollOut,
	HoldHeight, PowerMore, PowerLess, PowerBack, Ball, Push, EasePush, Nothing}

// Asks lists what phrases can ask, as cards write it.
func Asks() []string {
	names := make([]string, len(asks))
	for i, a := range asks {
		names[i] = string(a)
	}
	return names
}

// Known reports whether there is such an Ask.
func (a Ask) Known() bool { return slices.Contains(asks, a) }
