package web

import (
	"net/http"

	"halfturn/coach/command"
	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// isOther reports whether somebody is neither the pilot at a station nor the owner of the machine: the pilot is told of
// them, and may shut them out. Students reach their own stations only.
func isOther(by who.Who) bool { return by.Role != who.RoleOwner && by.Role != who.RoleStudent }

// mayReach returns an error when the pilot of a station shares it with nobody, and somebody else asks.
func (s *Server) mayReach(by who.Who, station string) error {
	if isOther(by) && s.hub.Private(station) {
		return &guard.Problem{
			Status: http.StatusForbidden,
			Phrase: phrase.StationPrivate.Of(phrase.Name("station", station)),
		}
	}
	return nil
}

// mayDo is mayReach for a command. Whether a station is private is for its pilot to say.
func (s *Server) mayDo(by who.Who, station string, kind command.Kind) error {
	if kind == command.KindPrivate && isOther(by) {
		return &guard.Problem{
			Status: http.StatusForbidden,
			Phrase: phrase.PrivateByPilot.Of(phrase.Name("station", station)),
		}
	}
	return s.mayReach(by, station)
}

// asOthersKnow is what others know of a station: of a private one that it is there.
func asOthersKnow(at message.Station) message.Station {
	if !at.Private || at.Replay != nil {
		return at
	}
	return message.Station{
		Name:     at.Name,
		Link:     at.Link,
		Channels: []string{},
		Derived:  []string{},
		Missing:  []string{},
		Private:  true,
	}
}
