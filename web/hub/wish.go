package hub

import (
	"fmt"
	"net/url"
	"strconv"

	"halfturn/coach/who"
)

// A Wish is the query of a viewer.
type Wish struct {
	Station string // "" is any
	Resume  bool
	Since   uint64 // the last event it has, when it resumes
	Run     string // the numbering that is of, "" when not known

	Who   who.Who // who wishes it; not of the query
	Other bool    // neither the pilot nor the owner of the machine: the pilot is told, and may shut them out
}

// WishOf reads the query of a viewer. The error is for the author of a client.
func WishOf(q url.Values) (Wish, error) {
	want := Wish{Station: q.Get("station"), Run: q.Get("run")}
	since := q.Get("since")
	if since == "" {
		return want, nil
	}
	n, err := strconv.ParseUint(since, 10, 64)
	if err != nil {
		return want, fmt.Errorf(
			"since=%q is not the number of an event: give the seq of the last message you have",
			since,
		)
	}
	want.Resume, want.Since = true, n
	return want, nil
}
