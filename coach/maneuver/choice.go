package maneuver

// A Choice is what is flown and how it is judged, by the names of cards.
type Choice struct {
	Maneuver string `json:"maneuver"`
	Standard string `json:"standard,omitempty"` // "" is the server's own
	Aircraft string `json:"aircraft,omitempty"` // "" is none
}
