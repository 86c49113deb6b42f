// Package flowtest is what every engine of package flow has to do, as tests.
package flowtest

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/share/link"
)

// A Joiner adds a node to a cluster, and takes it out when the test is over. A node whose engine was closed may be
// added again.
type Joiner func(node string) flow.Engine

// An Opener makes a cluster that has no node and holds nothing.
type Opener func(t *testing.T) Joiner

// Run tests an engine.
func Run(t *testing.T, open Opener) {
	for _, test := range []struct {
		name string
		run  func(*testing.T, Joiner)
	}{
		{"no lease yet", testNoLease},
		{"claim after the last lease", testClaim},
		{"claim after another was written", testClaimStale},
		{"fences grow", testFencesGrow},
		{"two claimers at once", testClaimersAtOnce},
		{"renewal", testRenewal},
		{"release", testRelease},
		{"release of what was taken over", testReleaseTaken},
		{"leases held", testHeld},

		{"batches come back", testBatchesComeBack},
		{"same batch again", testSameBatch},
		{"same batch after a takeover", testSameBatchTaken},
		{"keep with a stale fence", testKeepStale},
		{"keep without a lease", testKeepUnclaimed},
		{"keep against a claimer", testKeepAgainstClaimer},
		{"too long", testTooLong},
		{"stations are apart", testStationsApart},
		{"read from a session on", testReadFrom},
		{"read ends where it began", testReadEnds},
		{"read is ended", testReadIsEnded},
		{"drop", testDrop},
		{"many batches", testMany},

		{"told to others", testTold},
		{"topics and stations told apart", testToldApart},
		{"told in order", testToldInOrder},
		{"stop", testStop},
		{"slow listener", testSlow},
		{"told in vain", testToldInVain},
		{"ask", testAsk},
		{"nobody answers", testNobody},
		{"long answer", testLongAnswer},
		{"questions at once", testQuestionsAtOnce},
		{"answer that is not awaited", testUnawaited},

		{"restart", testRestart},
		{"canceled", testCanceled},
		{"closed", testClosed},
	} {
		t.Run(test.name, func(t *testing.T) { test.run(t, open(t)) })
	}
}

// patience is how long something may take that must happen.
const patience = 20 * time.Second

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// context of a test, which ends before the test would.
func soon(t *testing.T) context.Context {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	t.Cleanup(cancel)
	return ctx
}

func claim(t *testing.T, e flow.Engine, after flow.Lease, session string) flow.Lease {
	t.Helper()
	l, err := e.Claim(soon(t), after, session)
	must(t, err)
	return l
}

func holder(t *testing.T, e flow.Engine, station string) flow.Lease {
	t.Helper()
	l, err := e.Holder(soon(t), station)
	must(t, err)
	return l
}

func none(station string) flow.Lease { return flow.Lease{Station: station} }

// taken checks that something failed because another node holds the lease.
func taken(t *testing.T, what string, err error) {
	t.Helper()
	if !errors.Is(err, flow.ErrTaken) {
		t.Errorf("%s: %v; must be %q", what, err, flow.ErrTaken)
	}
}

// batch makes a batch as a node does, with a datagram and an event that say what it is.
func batch(l flow.Lease, number uint64) *flow.Batch {
	what := fmt.Sprintf("%s %d.%d", l.Session, l.Fence, number)
	return &flow.Batch{
		Station: l.Station,
		Fence:   l.Fence,
		Number:  number,
		Session: l.Session,
		Records: []link.Record{{Type: link.RecordDatagram, Received: int64(number), Bytes: []byte(what)}},
		Events:  []flow.Event{{ID: what, Seq: number, Run: "r", Body: []byte("{}")}},
	}
}

// keep keeps batches of some numbers under a lease.
func keep(t *testing.T, e flow.Engine, l flow.Lease, numbers ...uint64) {
	t.Helper()
	for _, n := range numbers {
		if err := e.Keep(soon(t), batch(l, n)); err != nil {
			t.Fatalf("%s, batch %d under %d: %v", l.Station, n, l.Fence, err)
		}
	}
}

// read reads batches, and returns what each says that it is.
func read(t *testing.T, e flow.Engine, station, session string) (all []string) {
	t.Helper()
	must(t, e.Read(soon(t), station, session, func(b *flow.Batch) error {
		all = append(all, string(b.Records[0].Bytes))
		if b.Station != station {
			t.Errorf("a batch of %s is read for %s", b.Station, station)
		}
		return nil
	}))
	return all
}
