package quiet

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// A page is what was said.
type page struct {
	Log
	mu    sync.Mutex
	lines []string
}

func (p *page) happens(what, sender string, n int) {
	p.Say(what, sender, func(more int) {
		p.mu.Lock()
		defer p.mu.Unlock()
		p.lines = append(p.lines, fmt.Sprintf("%s %s %d +%d", what, sender, n, more))
	})
}

// said returns the lines since it was last asked, in the order of the alphabet.
func (p *page) said() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	slices.Sort(p.lines)
	s := strings.Join(p.lines, "; ")
	p.lines = nil
	return s
}

func TestEdgeThenSummary(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var p page
		want := func(when, want string) {
			t.Helper()
			synctest.Wait()
			if got := p.said(); got != want {
				t.Errorf("%s: %q; must be %q", when, got, want)
			}
		}
		for n := range 600 {
			p.happens("junk", "a", n)
		}
		p.happens("junk", "b", 0)
		p.happens("fault", "a", 0)
		want("at once", "fault a 0 +0; junk a 0 +0; junk b 0 +0")
		<-time.After(Interval) // of the bubble's own time
		want("after an interval", "junk a 599 +599")
		p.happens("junk", "a", 600) // it goes on: it is no edge
		p.happens("junk", "b", 1)   // it begins again
		want("in the second interval", "junk b 1 +0")
		<-time.After(Interval)
		want("after the second interval", "junk a 600 +1")
		<-time.After(Interval)
		want("after a quiet one", "")
		p.happens("junk", "a", 601)
		want("it begins again", "junk a 601 +0")
		p.happens("junk", "a", 602)
		p.Close()
		want("at the end", "junk a 602 +1")
		p.happens("junk", "a", 603)
		p.Close()
		want("after the end", "")
	})
}

// However many senders there are, and however long they send, the log is short and the memory bounded.
func TestManySenders(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var p page
		lines, counted := 0, 0
		const minutes, senders = 10, 1000
		for range minutes {
			for n := range senders {
				p.happens("junk", fmt.Sprint(n), n)
			}
			<-time.After(Interval)
			synctest.Wait()
		}
		p.Close()
		for line := range strings.SplitSeq(p.said(), "; ") {
			var sender, n, more int
			if _, err := fmt.Sscanf(line, "junk %d %d +%d", &sender, &n, &more); err != nil {
				t.Fatal(err)
			}
			lines++
			counted += max(more, 1)
			if more == 0 && n != sender {
				t.Errorf("%q", line)
			}
		}
		if lines > minutes*(Senders+1)+Senders {
			t.Errorf("%d lines in %d minutes", lines, minutes)
		}
		if counted != minutes*senders {
			t.Errorf("%d messages are accounted for, of %d", counted, minutes*senders)
		}
		if n := len(p.kinds["junk"].senders); n > Senders {
			t.Errorf("%d senders are remembered", n)
		}
	})
}

// A summary that is being written when the log is closed is waited for.
func TestCloseWaits(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var l Log
		writing, done := make(chan struct{}), false
		l.Say("junk", "a", func(int) {})
		l.Say("junk", "a", func(int) {
			close(writing)
			<-time.After(time.Second) // of the bubble's own time
			done = true
		})
		<-writing
		l.Close()
		if !done {
			t.Error("it was not waited for")
		}
	})
}
