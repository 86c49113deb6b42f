package stored

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/judge"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream/phrase"
)

// recording holds one wing-over to the left.
const recording = "../../cmd/halfturn/testdata/wo-single-b-rolled-out-early-1.pcap.gz"

// byWingOver judges by the shipped wing-over, without an aircraft.
type byWingOver struct{ of *plan.Plan }

func (b byWingOver) Follow(*play.Recording) (play.Following, error) {
	return play.Following{Options: session.Options{Coach: judge.Options{Plan: b.of}}}, nil
}

func (byWingOver) By(*play.Recording, *play.Player) *debrief.JudgedBy { return &debrief.JudgedBy{} }

func (byWingOver) Notes(*play.Player) []phrase.Phrase {
	return []phrase.Phrase{phrase.Plain("a note")}
}
func (byWingOver) Judging(*play.Recording) (*logbook.Judging, error) { return nil, nil }

// given writes the recording as requested.
func given(t *testing.T, e Export) ([]byte, error) {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed("")
	if err != nil {
		t.Fatal(err)
	}
	rec, err := play.Open(t.Context(), recording)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	err = e.Write(t.Context(), &b, rec, byWingOver{plan.New(card, a)})
	return b.Bytes(), err
}

// Each format begins as its definition says: RFC 4180, parquet.apache.org, GPX 1.1, KML 2.2, RFC 8259, ISO 32000.
func TestWrite(t *testing.T) {
	for format, want := range map[string]string{
		"csv": "", "parquet": "PAR1", "gpx": "<?xml", "kml": "<?xml", "json": "{", "pdf": "%PDF-1.",
	} {
		for _, leg := range []int{0, 1} {
			text, err := given(t, Export{Format: format, Leg: leg, Paper: "a4", Student: "Ada",
				Remarks: []string{"Good."}})
			if err != nil || !bytes.HasPrefix(text, []byte(want)) || len(text) < 1000 {
				t.Errorf("%s, leg %d: %d bytes, %.20q, %v", format, leg, len(text), text, err)
			}
		}
		var none *NoLeg
		if _, err := given(t, Export{Format: format, Leg: 9, Paper: "a4"}); !errors.As(err, &none) ||
			!strings.Contains(err.Error(), "there is no leg 9; the recording holds ") {
			t.Errorf("%s of a leg that is not there: %v", format, err)
		}
	}
}

// A leg has fewer rows than the recording, and the report of one holds that leg alone.
func TestWriteLeg(t *testing.T) {
	rows := map[int]int{}
	for _, leg := range []int{0, 1} {
		text, err := given(t, Export{Format: "csv", Leg: leg})
		if err != nil {
			t.Fatal(err)
		}
		rows[leg] = bytes.Count(text, []byte("\n"))
	}
	if rows[1] < 100 || rows[1] >= rows[0] {
		t.Errorf("%d rows of the leg, %d of the recording", rows[1], rows[0])
	}
	text, err := given(t, Export{Format: "json", Leg: 1})
	if err != nil {
		t.Fatal(err)
	}
	var r debrief.Report
	if err := json.Unmarshal(text, &r); err != nil {
		t.Fatal(err)
	}
	f := r.Files[0]
	if len(f.Stations[0].Series) != 1 || len(f.Stations[0].Series[0].Legs) != 1 ||
		len(f.Notes) != 1 || f.Notes[0].String() != "a note" {
		t.Errorf("the report is %+v", f)
	}
}

// A book knows one session.
type book struct{ detail logbook.SessionDetail }

func (b *book) Session(_ context.Context, id string) (*logbook.SessionDetail, error) {
	if id != "known" {
		return nil, &logbook.NotFound{ID: id}
	}
	return &b.detail, nil
}

func TestAbout(t *testing.T) {
	b := &book{}
	b.detail.Student = "Ada"
	b.detail.Said = []logbook.Remark{{Words: "of all"}, {Leg: 1, Words: "of one"}, {Leg: 2, Words: "of two", By: "Bo"}}
	for _, c := range []struct {
		id, named, student string
		leg                int
		remarks            []string
	}{
		{"known", "", "Ada", 0, []string{"of all", "Leg 1: of one", "Leg 2: of two (Bo)"}},
		{"known", "Cy", "Cy", 2, []string{"of all", "Leg 2: of two (Bo)"}},
		{"unknown", "Cy", "Cy", 0, nil},
	} {
		r := Export{Student: c.named, Leg: c.leg}
		if err := r.About(t.Context(), b, c.id); err != nil {
			t.Fatal(err)
		}
		if r.Student != c.student || !slices.Equal(r.Remarks, c.remarks) {
			t.Errorf("%+v: %+v", c, r)
		}
	}
}
