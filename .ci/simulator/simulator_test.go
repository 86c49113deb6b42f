//go:build simulator

package simulator

import (
	"context"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"testing"
	"text/tabwriter"
	"time"

	"halfturn/coach"
	"halfturn/stream"
)

// limit is the longest the test may take.
const limit = 9 * time.Minute

// allowed is how far a value shown may be from the truth of the same simulator time: about
// what can be read off an instrument (common practice, no source).
var allowed = map[string]float64{"heading": 0.5, "bank": 0.5, "pitch": 0.5, "airspeed": 1.5, "altitude": 20}

var channels = []string{"heading", "bank", "pitch", "airspeed", "altitude"}

const (
	altitude = 6000.0 // ft, where the flight begins
	heading  = 90.0   // °, likewise
	starting = 10.0   // s of simulator time that the simulator needs to come up
	fewest   = 20.0   // frames a second; a busy machine draws, and sends, fewer than the 30 asked for
)

// TestTracksTheSimulator flies a chandelle and a pair of wing-overs in the simulator. What
// Halfturn shows live, frame by frame and leg by leg, must be what the flight dynamics say.
func TestTracksTheSimulator(t *testing.T) {
	ctx, cancel := signal.NotifyContext(t.Context(), os.Interrupt, syscall.SIGTERM)
	defer cancel()
	ctx, cancelLimit := context.WithTimeout(ctx, limit)
	defer cancelLimit()

	h := startServer(ctx, t)
	v := watch(ctx, t, h.pages)
	truth := listenTruth(t)
	context.AfterFunc(ctx, func() { truth.conn.Close() }) // ends the pilot's waiting
	hands, words := startSimulator(ctx, t, h.udp, truth.port())
	p, err := newPilot(truth, hands)
	if err != nil {
		t.Fatalf("%v; its last words:\n%s", err, lastWords(words))
	}
	defer p.hands.Close()

	plan := []flown{p.chandelle(altitude, heading)}
	legs := v.await(t, p, 1)
	choose(ctx, t, h.pages, v.station(), "wing-over")
	plan = append(plan, p.wingOvers(altitude, heading+180)...)
	legs = append(legs, v.await(t, p, 2)...)
	if p.err != nil {
		t.Fatalf("the pilot stopped: %v; the simulator's last words:\n%s", p.err, lastWords(words))
	}
	all := truth.moments()
	h.stop(os.Interrupt)

	compareFrames(t, v.frames(), all)
	for i := range plan {
		compareLeg(t, &plan[i], &legs[i], all)
	}
	printLegs(t, plan, legs, all)
	if !strings.Contains(h.summary.String(), "Leg 2 to the left, finished") {
		t.Errorf("the summary at the end does not tell of the pair:\n%s", h.summary)
	}
}

// A difference is how far apart what was shown and the truth were.
type difference struct{ n, worst, when, squares float64 }

func (d *difference) add(e, when float64) {
	d.n++
	d.squares += e * e
	if e > d.worst {
		d.worst, d.when = e, when
	}
}

// compareFrames holds every frame since the start against the truth.
func compareFrames(t *testing.T, frames []coach.Frame, all []moment) {
	t.Helper()
	from, to := all[0].time+starting, all[len(all)-1].time
	found := make([]difference, len(channels))
	for i := range frames {
		f := &frames[i]
		for j, c := range channels {
			want, ok := at(all, c, f.Time)
			got, shown := f.Values[c]
			if ok && shown && f.Time >= from {
				found[j].add(apart(c, sided(c, got, f.Direction), want), f.Time)
			}
		}
	}
	table(t, "channel\tframes\tworst\tat\trms\tallowed\n", func(w *tabwriter.Writer) {
		for j, c := range channels {
			d := &found[j]
			ch, _ := stream.ChannelNamed(c)
			unit := ch.Info().Unit
			fmt.Fprintf(w, "%s\t%.0f\t%.3f %s\t%.1f s\t%.3f\t%g\n", c, d.n, d.worst, unit, d.when,
				math.Sqrt(d.squares/d.n), allowed[c])
			if d.n < fewest*(to-from) {
				t.Errorf("%s: %.0f frames could be compared in %.0f s, wanted %g a second", c, d.n, to-from, fewest)
			}
			if !(d.worst <= allowed[c]) {
				t.Errorf("%s is off by %.3f %s at %.2f s, allowed %g", c, d.worst, unit, d.when, allowed[c])
			}
		}
	})
}

// compareLeg holds a leg against what was flown and its checkpoints against the truth.
func compareLeg(t *testing.T, f *flown, l *coach.Leg, all []moment) {
	t.Helper()
	name := f.maneuver + " to the " + f.direction
	if l.Direction != f.direction || l.Outcome != coach.Finished {
		t.Errorf("%s: the leg is to the %s, %s (%s)", name, l.Direction, l.Outcome, l.Reason)
		return
	}
	// The reference comes from before the roll-in, so the entry is found within a second or so of it.
	if math.Abs(l.Start-f.entry) > 2.5 {
		t.Errorf("%s: the leg starts at %.2f s, the pilot began at %.2f s", name, l.Start, f.entry)
	}
	for _, turn := range []float64{45, 90, 135, 180} {
		p := pointAt(l, turn)
		if p == nil {
			t.Errorf("%s: nothing was kept at %g°", name, turn)
			continue
		}
		if turn == 180 {
			turn = p.Turn // out where the wings came level
		}
		for _, c := range channels {
			want, ok := at(all, c, p.Time)
			got, shown := p.Values[c]
			if !ok || !shown || apart(c, sided(c, got, l.Direction), want) > allowed[c] {
				t.Errorf("%s at %g°: %s is %.2f, the truth %.2f", name, turn, c, sided(c, got, l.Direction), want)
			}
		}
		// The hands wander about the entry heading by part of a degree; and when the simulator
		// hitches, its clock and its dynamics part by up to a tenth of a second.
		if got := turned(all, f, p.Time); math.Abs(got-turn) > 1.5 {
			t.Errorf("%s: the checkpoint at %g° was taken at %.2f° of turn", name, turn, got)
		}
	}
}

// turned is the turn since the roll-in by the truth alone, ° positive in the direction flown.
func turned(all []moment, f *flown, time float64) float64 {
	now, _ := at(all, "heading", time)
	d := stream.Wrap180(now - meanHeading(all, f.entry))
	if f.direction == "left" {
		return -d
	}
	return d
}

func printLegs(t *testing.T, plan []flown, legs []coach.Leg, all []moment) {
	t.Helper()
	const head = "leg\tturn\tby the truth\tbank\ttruth\tnose\ttruth\tspeed\ttruth\taltitude\ttruth\n"
	table(t, head, func(w *tabwriter.Writer) {
		for i := range legs {
			l := &legs[i]
			fmt.Fprintf(w, "%s to the %s, %s, %s %.0f%s\n", plan[i].maneuver, l.Direction, l.Outcome,
				l.Verdict, l.Score, missed(l))
			for _, turn := range []float64{45, 90, 135, 180} {
				p := pointAt(l, turn)
				if p == nil {
					continue
				}
				fmt.Fprintf(w, "\t%.0f°\t%.1f°", p.Turn, turned(all, &plan[i], p.Time))
				for _, c := range channels[1:] {
					want, _ := at(all, c, p.Time)
					fmt.Fprintf(w, "\t%.2f\t%.2f", sided(c, p.Values[c], l.Direction), want)
				}
				fmt.Fprintln(w)
			}
		}
	})
}

// missed lists the checks that the pilot, not Halfturn, has to answer for.
func missed(l *coach.Leg) string {
	var b strings.Builder
	for i := range l.Checks {
		if c := &l.Checks[i]; c.Verdict == coach.Missed && c.Value != nil {
			fmt.Fprintf(&b, "; missed %s: %.1f %s", c.ID, *c.Value, c.Unit)
		}
	}
	return b.String()
}

func table(t *testing.T, head string, rows func(*tabwriter.Writer)) {
	t.Helper()
	var b strings.Builder
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprint(w, head)
	rows(w)
	w.Flush()
	t.Log("\n" + b.String())
}

// pointAt is what was kept at a checkpoint; the one at 180° is the exit.
func pointAt(l *coach.Leg, turn float64) *coach.Point {
	if turn == 180 {
		return l.Exit
	}
	for i := range l.Points {
		if l.Points[i].Turn == turn {
			return &l.Points[i]
		}
	}
	return nil
}

// sided undoes that bank is positive toward the turn.
func sided(channel string, v float64, direction string) float64 {
	if channel == "bank" && direction == "left" {
		return -v
	}
	return v
}

func apart(channel string, a, b float64) float64 {
	if channel == "heading" {
		return math.Abs(stream.Wrap180(a - b))
	}
	return math.Abs(a - b)
}

// choose sets the maneuver as the panel does.
func choose(ctx context.Context, t *testing.T, pages, station, maneuver string) {
	t.Helper()
	body := strings.NewReader(fmt.Sprintf(`{"maneuver": %q, "aircraft": "light-single"}`, maneuver))
	choose := pages + "api/stations/" + url.PathEscape(station) + "/choose"
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, choose, body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	resp, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		t.Fatalf("choosing %s for %s: %s", maneuver, station, resp.Status)
	}
}
