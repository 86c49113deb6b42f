package message

import "halfturn/coach"

// The events of the coach as bodies of messages. Their members are those of the event.
type (
	// A Frame is the state of now.
	Frame struct{ *coach.Frame }
	// A Setup tells that a gate of the set-up opened or closed.
	Setup struct{ *coach.Setup }
	// A Phase tells that a named span of the turn began.
	Phase struct{ *coach.Phase }
	// A Callout is something to say.
	Callout struct{ *coach.Callout }
	// A Leg is a leg that is over, with its grades.
	Leg struct{ *coach.Leg }
	// A Series is a series that is over, with its grades.
	Series struct{ *coach.Series }
	// A Hole is where this machine lost datagrams of the stream.
	Hole struct{ *coach.Hole }
)

func (Frame) kind() Type   { return TypeFrame }
func (Setup) kind() Type   { return TypeSetup }
func (Phase) kind() Type   { return TypePhase }
func (Callout) kind() Type { return TypeCallout }
func (Leg) kind() Type     { return TypeLeg }
func (Series) kind() Type  { return TypeSeries }
func (Hole) kind() Type    { return TypeHole }

// Of returns the body for an event of the coach. Every event has one.
func Of(e coach.Event) Body {
	switch e := e.(type) {
	case *coach.Setup:
		return Setup{e}
	case *coach.Phase:
		return Phase{e}
	case *coach.Callout:
		return Callout{e}
	case *coach.Leg:
		return Leg{e}
	case *coach.Series:
		return Series{e}
	}
	return nil
}
