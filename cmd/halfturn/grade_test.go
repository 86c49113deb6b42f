package main

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/csv"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/grading"
	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// pcap writes datagrams as a classic pcap file of raw IPv4 (link type 101), by the file format of
// libpcap (pcap-savefile(5)).
type pcap struct{ bytes.Buffer }

func newPcap() *pcap {
	p := &pcap{}
	for _, v := range []uint32{0xa1b2c3d4, 2 | 4<<16, 0, 0, 65535, 101} {
		p.put(v)
	}
	return p
}

func (p *pcap) put(v uint32) { p.Write(binary.LittleEndian.AppendUint32(nil, v)) }

func (p *pcap) add(at float64, payload []byte) {
	n := 28 + len(payload)
	micros := uint64(at * 1e6)
	for _, v := range []uint32{uint32(1_700_000_000 + micros/1e6), uint32(micros % 1e6), uint32(n), uint32(n)} {
		p.put(v)
	}
	ip := make([]byte, 28)
	ip[0], ip[8], ip[9] = 0x45, 64, 17
	binary.BigEndian.PutUint16(ip[2:], uint16(n))
	copy(ip[12:], net.IPv4(192, 0, 2, 1).To4())
	copy(ip[16:], net.IPv4(192, 0, 2, 2).To4())
	binary.BigEndian.PutUint16(ip[20:], 50123)
	binary.BigEndian.PutUint16(ip[22:], 7181)
	binary.BigEndian.PutUint16(ip[24:], uint16(8+len(payload)))
	p.Write(ip)
	p.Write(payload)
}

// recordTo flies the built-in aircraft for some seconds, again and again, into a recording.
func recordTo(t testing.TB, f trainer.Flight, seconds float64) []byte {
	t.Helper()
	enc, err := encode.New("labels")
	if err != nil {
		t.Fatal(err)
	}
	p := newPcap()
	p.add(0, enc.Preamble())
	const step = 1.0 / 60
	for at := 0.0; at < seconds; {
		pilot, err := trainer.New(f)
		if err != nil {
			t.Fatal(err)
		}
		var s stream.Sample
		for on := true; on; at += step {
			on = pilot.Step(step, &s)
			s.Put(stream.Time, at)
			p.add(at, enc.Append(nil, &s))
		}
	}
	return p.Bytes()
}

func TestGradeMany(t *testing.T) {
	dir := t.TempDir()
	write := func(name string, data []byte) string {
		p := filepath.Join(dir, name)
		if err := os.WriteFile(p, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return p
	}
	a := write("a.pcap", recordTo(t, trainer.Flight{Direction: "right", Airplane: "light-single", Seed: 1}, 10))
	b := write("b.pcap", recordTo(t,
		trainer.Flight{Maneuver: "steep-turn", Direction: "left", Airplane: "light-single", Seed: 2}, 10))
	write("notes.txt", []byte("no recording"))
	args := []string{"grade", "--maneuver", "auto", "--aircraft", "light-single"}

	status, table, msg := call(t, nil, append(args, dir)...)
	if status != exitDone || msg != "" {
		t.Fatalf("exit status %d: %s", status, msg)
	}
	for _, want := range []string{"simulator practice only", "MANEUVER", "wing-over by ", "steep-turn by ", " over ",
		"finished"} {
		if !strings.Contains(table, want) {
			t.Errorf("the table lacks %q:\n%s", want, table)
		}
	}
	if i, j := strings.Index(table, "a.pcap"), strings.Index(table, "b.pcap"); i < 0 || j < i {
		t.Errorf("files are not in order:\n%s", table)
	}

	// The same whatever the number of workers; in the order of the arguments.
	_, one, _ := call(t, nil, append(args, "--format", "json", "--jobs", "1", b, a, b)...)
	_, four, _ := call(t, nil, append(args, "--format", "json", "--jobs", "4", b, a, b)...)
	if one != four || strings.Index(one, "b.pcap") > strings.Index(one, "a.pcap") {
		t.Error("the result depends on the workers")
	}

	status, out, _ := call(t, nil, append(args, "--format", "csv", a, b)...)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if status != exitDone || err != nil || len(rows) < 30 || len(rows[0]) < 30 {
		t.Fatalf("exit status %d, %d rows, %v", status, len(rows), err)
	}
	judged := map[bool]int{}
	for _, row := range rows[1:] { // a score stands beside every verdict, and beside nothing that was not judged
		for verdict, score := range map[string]string{"leg_verdict": "leg_score", "verdict": "score"} {
			v, x := row[slices.Index(rows[0], verdict)], row[slices.Index(rows[0], score)]
			if (v == coach.NotMeasured) != (x == "") {
				t.Errorf("%s %q beside %s %q: %q", verdict, v, score, x, row)
			}
			judged[x != ""]++
		}
	}
	if judged[true] == 0 || judged[false] == 0 {
		t.Errorf("%v were judged, or not", judged)
	}

	status, out, msg = call(t, nil, append(args, a, filepath.Join(dir, "gone.pcap"))...)
	if status != exitFailed || !strings.Contains(out, "a.pcap") || !strings.Contains(out, "gone.pcap") ||
		!strings.Contains(msg, "gone.pcap: no such file") {
		t.Errorf("exit status %d: %s\n%s", status, msg, out)
	}
	empty := filepath.Join(dir, "empty")
	if err := os.Mkdir(empty, 0o700); err != nil {
		t.Fatal(err)
	}
	if status, _, msg = call(t, nil, append(args, empty)...); status != exitFailed ||
		!strings.Contains(msg, "holds no recording") {
		t.Errorf("exit status %d: %s", status, msg)
	}
}

func TestGradeInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	var out, msg bytes.Buffer
	status := run(ctx, []string{"grade", "--format", "json", recording, recording}, streamsTo(&out, &msg, os.LookupEnv))
	if status != exitFailed || !strings.Contains(msg.String(), "interrupted: 0 of 2 files") ||
		!strings.Contains(out.String(), `"files": []`) {
		t.Errorf("exit status %d: %s\n%s", status, msg.String(), out.String())
	}
}

// BenchmarkGradeHour grades an hour at 60 samples a second on one core: the built-in aircraft's
// wing-overs again and again. The figure wanted is seconds of flight a second of time.
func BenchmarkGradeHour(b *testing.B) {
	const hour = 3600.0
	name := filepath.Join(b.TempDir(), "hour.pcap")
	if err := os.WriteFile(name, recordTo(b, trainer.Flight{Direction: "both", Airplane: "light-single", Seed: 1},
		hour), 0o600); err != nil {
		b.Fatal(err)
	}
	for _, m := range []string{"wing-over", "auto"} {
		b.Run(m, func(b *testing.B) {
			plane := "light-single"
			cfg, err := base.Load(&base.Flags{Maneuver: &m, Aircraft: &plane}, noVariables)
			if err != nil {
				b.Fatal(err)
			}
			began := time.Now()
			n := 0
			for b.Loop() {
				var f debrief.FileReport
				if err := grading.File(b.Context(), name, base.Judging(cfg, nil), &f); err != nil {
					b.Fatal(err)
				}
				if len(f.Stations) != 1 || len(f.Stations[0].Series) < 20 {
					b.Fatalf("%+v", f.Stations)
				}
				n++
			}
			b.ReportMetric(hour*float64(n)/time.Since(began).Seconds(), "x-real-time")
		})
	}
}
