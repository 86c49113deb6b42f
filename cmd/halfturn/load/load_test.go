package load

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"
)

var (
	stations = flag.String("stations", "", "how many stations, a run for each number: 200,600; empty runs nothing")
	viewers  = flag.Int("viewers", 200, "how many pages look on")
	warm     = flag.Duration("warm", 15*time.Second, "how long nothing is measured yet")
	measured = flag.Duration("measured", 30*time.Second, "how long is measured")
	profile  = flag.Bool("profile", false, "write a processor profile of each run to the folder of -out")
	out      = flag.String("out", "", "the folder that table and picture are written to")
)

// TestLoad measures a server with each number of stations.
func TestLoad(t *testing.T) {
	if *stations == "" {
		t.Skip("measures only when it is told how many stations; see make load")
	}
	program := build(t)
	var runs []figures
	for text := range strings.SplitSeq(*stations, ",") {
		n, err := strconv.Atoi(strings.TrimSpace(text))
		if err != nil || n < 1 {
			t.Fatalf("-stations has %q; must be numbers from 1, with commas between", text)
		}
		t.Run(text, func(t *testing.T) {
			f := run(t, program, n, *viewers)
			t.Log(f)
			runs = append(runs, f)
		})
	}
	if *out == "" {
		return
	}
	for name, text := range map[string]string{"load.csv": table(runs), "load.svg": picture(runs)} {
		if err := os.WriteFile(filepath.Join(*out, name), []byte(text), 0o644); err != nil {
			t.Error(err)
		}
	}
}

func build(t *testing.T) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "halfturn")
	if out, err := exec.Command("go", "build", "-o", name, "halfturn/cmd/halfturn").CombinedOutput(); err != nil {
		t.Fatalf("go build: %v\n%s", err, out)
	}
	return name
}

// figures are what one run measured.
type figures struct {
	stations, viewers int
	seconds           float64
	sent              int // datagrams
	worked            int // of them, that stations worked on
	unread            int // dropped by the system
	unqueued          int // dropped by the server, as stations did not keep up
	unrecorded        int
	frames            int           // that viewers got
	p50, p99, most    time.Duration // from a datagram to the page
	late              time.Duration // p99 of how late datagrams were sent
	server            float64       // processors of the server
	driver            float64       // processors of the sender and the viewers
	memory            float64       // bytes that the server has more than when it was idle
	overloaded        int           // seconds in which something was given up
}

// lost is the share of the datagrams that no station worked on.
func (f figures) lost() float64 { return float64(f.unread+f.unqueued) / float64(max(1, f.sent)) }

// each is the memory of a station, MiB.
func (f figures) each() float64 { return f.memory / float64(f.stations) / (1 << 20) }

func (f figures) String() string {
	return fmt.Sprintf("%d stations, %d viewers, %d processors: %.0f datagrams/s sent, %.0f worked on, %d unread, "+
		"%d not queued, %d not recorded; datagram to page p50 %.1f, p99 %.1f, max %.0f ms over %d frames "+
		"(sent p99 %.1f ms late); "+
		"server %.2f processors, sender and viewers %.2f; %.2f MiB per station; something given up in %d s",
		f.stations, f.viewers, runtime.NumCPU(), float64(f.sent)/f.seconds, float64(f.worked)/f.seconds, f.unread,
		f.unqueued, f.unrecorded, ms(f.p50), ms(f.p99), ms(f.most), f.frames, ms(f.late), f.server, f.driver,
		f.each(), f.overloaded)
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }

// table is a table of the runs, with commas between.
func table(runs []figures) string {
	var b strings.Builder
	b.WriteString("stations,viewers,sent per s,worked on per s,unread,not queued,not recorded,p50 ms,p99 ms,max ms," +
		"server processors,driver processors,MiB per station,overloaded s\n")
	for _, f := range runs {
		fmt.Fprintf(&b, "%d,%d,%.0f,%.0f,%d,%d,%d,%.2f,%.2f,%.2f,%.3f,%.3f,%.3f,%d\n", f.stations, f.viewers,
			float64(f.sent)/f.seconds, float64(f.worked)/f.seconds, f.unread, f.unqueued, f.unrecorded,
			ms(f.p50), ms(f.p99), ms(f.most), f.server, f.driver, f.each(), f.overloaded)
	}
	return b.String()
}
