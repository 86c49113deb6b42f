package replay

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/logbook"
	"halfturn/web"
)

// oneLeg is a session of one leg, whose only check was missed.
type oneLeg struct{ leg coach.Leg }

func (o oneLeg) Legs(context.Context, string) (web.FlownLegs, error) {
	series := coach.Series{Maneuver: "wing-over", Aircraft: "trainer", Verdict: coach.Missed, Grade: coach.Fair}
	return web.FlownLegs{
		Legs:   []web.FlownSheet{{Number: 1, Series: 1, Leg: o.leg}},
		Series: []coach.Series{series},
	}, nil
}

func (o oneLeg) Leg(context.Context, string, int) ([]byte, error) {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	err := json.NewEncoder(z).Encode(web.FlownLeg{Number: 1, Leg: o.leg})
	if err == nil {
		err = z.Close()
	}
	return b.Bytes(), err
}

// TestJudged: the list of legs, the leg itself and a shared file say the same of what was overruled; a file without
// names tells neither who did nor why.
func TestJudged(t *testing.T) {
	bank := coach.Check{ID: "bank", Label: "Bank", Weight: 1, Verdict: coach.Missed, Score: 20, Words: "More bank"}
	leg := coach.Leg{
		Outcome: coach.Finished,
		Verdict: coach.Missed,
		Grade:   coach.Fair,
		Score:   67,
		Checks:  []coach.Check{bank},
		Trace:   []coach.Trace{{Turn: 1}},
	}
	said := &logbook.Judging{}
	j := Judged{Flights: oneLeg{leg}, Of: func(_ context.Context, id string) (*logbook.Judging, error) {
		if id == "unknown" {
			return nil, &logbook.NotFound{ID: id}
		}
		return said, nil
	}}
	read := func(id string) (coach.Leg, coach.Leg) {
		t.Helper()
		list, err := j.Legs(t.Context(), id)
		if err != nil {
			t.Fatal(err)
		}
		data, err := j.Leg(t.Context(), id, 1)
		if err != nil {
			t.Fatal(err)
		}
		z, err := gzip.NewReader(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		var one web.FlownLeg
		if err := json.NewDecoder(z).Decode(&one); err != nil {
			t.Fatal(err)
		}
		return list.Legs[0].Leg, one.Leg
	}
	for _, id := range []string{"x", "unknown"} {
		if of, one := read(id); of.Verdict != coach.Missed || one.Verdict != coach.Missed || one.Computed != nil {
			t.Errorf("nothing overruled: %+v, %+v", of, one)
		}
	}
	gust := logbook.Overrule{Leg: 1, Check: "bank", Verdict: coach.Met, By: "B. Example", Reason: "a gust"}
	said.Overruled = []logbook.Overrule{gust}
	of, one := read("x")
	for _, l := range []coach.Leg{of, one} {
		if l.Verdict != coach.Met || l.Computed.Grade != coach.Fair || l.Checks[0].Overruled.By != "B. Example" ||
			len(l.Trace) != 1 {
			t.Errorf("%+v", l)
		}
	}
	whole := logbook.Overrule{Leg: 1, Verdict: coach.Near, By: "B. Example", Reason: "x"}
	said.Overruled = append(said.Overruled, whole)
	for names, must := range map[bool]bool{true: true, false: false} {
		var b bytes.Buffer
		detail := &logbook.SessionDetail{Judging: *said}
		if err := web.WriteShare(t.Context(), &b, j, "x", detail, web.Share{Names: names}); err != nil {
			t.Fatal(err)
		}
		_, held, _ := strings.Cut(b.String(), `id="shared"`)
		if strings.Contains(held, "B. Example") != must || strings.Contains(held, "a gust") != must ||
			!strings.Contains(held, `"computed"`) {
			t.Errorf("with names %v, the shared file holds the name: %v", names, !must)
		}
	}
}
