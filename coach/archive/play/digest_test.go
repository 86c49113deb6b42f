package play_test

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"flag"
	"fmt"
	"hash"
	"io"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/callout"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs"
)

var (
	english = flag.Bool("english", false, "take digests as if phrases were their English: with -update "+
		"before a change of sentences to codes, without it afterwards")
	update     = flag.Bool("update", false, "rewrite the golden files")
	recordings = flag.String("recordings", "",
		"folder of more recordings to take digests of; they are kept in its file digests.txt")
)

// digester hashes all that a session says, in the order in which it says it, and one in five of its frames: to write
// them costs more than to coach, and what differs in one differs in those after it.
type digester struct {
	hash.Hash
	t      *testing.T
	frames int
}

func (d *digester) write(v any) {
	b, err := json.Marshal(v)
	if err != nil {
		d.t.Fatal(err)
	}
	if *english {
		b = inEnglish(b)
	}
	d.Write(append(b, '\n'))
}

func (d *digester) Event(m message.Message) { d.write(m) }

func (d *digester) Frame(_ string, f *coach.Frame) {
	if d.frames++; d.frames%5 == 1 {
		d.write(f)
	}
}

func (d *digester) Watched(string) bool { return true }

// inEnglish puts the English of each phrase in its place: what only moves between words and codes shows the same then.
func inEnglish(b []byte) (all []byte) {
	for {
		i := bytes.Index(b, []byte(`{"code":"`))
		if i < 0 {
			return append(all, b...)
		}
		var p struct{ Text json.RawMessage }
		d := json.NewDecoder(bytes.NewReader(b[i:]))
		if err := d.Decode(&p); err != nil {
			return append(all, b...)
		}
		all = append(append(all, b[:i]...), p.Text...)
		b = b[i+int(d.InputOffset()):]
	}
}

// TestDigests holds what the program makes of each recording to the byte: events, frames and report. A change that is
// only one of shape leaves all of them as they are; one that is meant to judge or speak otherwise rewrites them, and
// its commit says why.
func TestDigests(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob("../../session/testdata/flights/*.pcap.gz")
	if err != nil || len(names) < 13 {
		t.Fatalf("%d recordings, %v; there are 13 at least", len(names), err)
	}
	compareDigests(t, lib, "testdata/digests.txt", names)
	if *recordings == "" {
		return
	}
	names, err = play.Find(t.Context(), *recordings)
	if err != nil {
		t.Fatal(err)
	}
	compareDigests(t, lib, filepath.Join(*recordings, "digests.txt"), names)
}

func compareDigests(t *testing.T, lib *maneuver.Library, golden string, names []string) {
	t.Helper()
	var got strings.Builder
	for i, name := range names {
		for _, c := range digestChoices(lib, i) {
			fmt.Fprintf(&got, "%s %s/%s/%s %x\n", filepath.Base(name), c.Maneuver, c.Standard, c.Aircraft, digest(t,
				lib, name, c))
		}
	}
	if *update {
		if err := os.WriteFile(golden, []byte(got.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(strings.NewReader(string(want)))
	for line := range strings.Lines(got.String()) {
		if !lines.Scan() || lines.Text()+"\n" != line {
			t.Errorf("%s has %q, now it is %q", golden, lines.Text(), strings.TrimSpace(line))
		}
	}
	if lines.Scan() {
		t.Errorf("%s has %q besides", golden, lines.Text())
	}
}

// digestChoices are by what a recording is judged: auto, with and without an aircraft card, and every third maneuver,
// so that three recordings see them all.
func digestChoices(lib *maneuver.Library, recording int) []maneuver.Choice {
	choices := []maneuver.Choice{
		{Maneuver: coach.AutoManeuver},
		{Maneuver: coach.AutoManeuver, Standard: "check", Aircraft: "turboprop-trainer"},
	}
	for i, card := range lib.Cards() {
		if (i+recording)%3 == 0 {
			choices = append(choices, maneuver.Choice{Maneuver: card.Name, Aircraft: "light-single"})
		}
	}
	return choices
}

func digest(t *testing.T, lib *maneuver.Library, name string, c maneuver.Choice) []byte {
	t.Helper()
	chosen, auto := plansFor(t, lib, c)
	d := &digester{sha256.New(), t, 0}
	follow := play.Following{
		Options: session.Options{
			Coach: judge.Options{Plan: chosen, Deck: 1500, Voice: callout.Options{}},
			Auto:  auto,
		},
		Output: func(netip.AddrPort) session.Output { return d },
	}
	rec, err := play.Open(context.Background(), name)
	if err != nil {
		t.Fatal(err)
	}
	p, err := rec.Play(t.Context(), follow)
	if err != nil {
		t.Fatal(err)
	}
	if err := p.Run(nil); err != nil && err != io.EOF {
		d.write(err.Error())
	}
	for _, s := range p.Flights() {
		d.write(p.Report(s))
	}
	if err := p.Close(); err != nil {
		t.Error(err)
	}
	return d.Sum(nil)[:12]
}

func plansFor(t *testing.T, lib *maneuver.Library, c maneuver.Choice) (chosen *plan.Plan, auto []*plan.Plan) {
	t.Helper()
	aircraft, err := lib.AircraftNamed(c.Aircraft)
	if err != nil {
		t.Fatal(err)
	}
	cards := lib.Distinct()
	if c.Maneuver != coach.AutoManeuver {
		cards = slices.DeleteFunc(slices.Clone(lib.Cards()),
			func(k *maneuver.Card) bool { return k.Name != c.Maneuver })
	}
	for _, k := range cards {
		card, err := lib.Judged(k.Name, c.Standard)
		if err != nil {
			t.Fatal(err)
		}
		auto = append(auto, plan.New(card, aircraft))
	}
	if c.Maneuver == coach.AutoManeuver {
		return auto[0], auto
	}
	return auto[0], nil
}
