package flowtest

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"sync"
	"testing"

	"halfturn/web/cluster/flow"
)

// A question reaches the node that is asked, and its answer comes back; a node may ask itself.
func testAsk(t *testing.T, join Joiner) {
	nodes := map[string]flow.Engine{"north": join("north"), "south": join("south"), "a.b *": join("a.b *")}
	for name, e := range nodes {
		must(t, e.Answer(func(ctx context.Context, question []byte) []byte {
			if len(question) == 0 {
				return nil
			}
			if ctx.Err() != nil {
				t.Error(ctx.Err())
			}
			return append([]byte(name+" hears "), question...)
		}))
	}
	for from, e := range nodes {
		for to := range nodes {
			var got []byte
			until(t, "an answer of "+to, func() bool {
				var err error
				got, err = e.Ask(soon(t), to, []byte(from))
				if err != nil && !errors.Is(err, flow.ErrNobody) {
					t.Fatal(err)
				}
				return err == nil
			})
			if want := to + " hears " + from; string(got) != want {
				t.Errorf("%s asks %s: %q; must be %q", from, to, got, want)
			}
			if got, err := e.Ask(soon(t), to, nil); err != nil || len(got) != 0 {
				t.Errorf("an empty question of %s to %s: %q, %v", from, to, got, err)
			}
		}
	}
}

// Ask fails at once when the node is not there, does not answer questions, or has left.
func testNobody(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	for _, to := range []string{"south", "west", "*", ">", "north"} {
		if got, err := north.Ask(soon(t), to, []byte("x")); !errors.Is(err, flow.ErrNobody) {
			t.Errorf("%s: %q, %v; must be %q", to, got, err, flow.ErrNobody)
		}
	}
	must(t, south.Answer(func(context.Context, []byte) []byte { return nil }))
	until(t, "an answer", func() bool {
		_, err := north.Ask(soon(t), "south", nil)
		return err == nil
	})
	must(t, south.Close())
	until(t, "that the node has left", func() bool {
		_, err := north.Ask(soon(t), "south", nil)
		return errors.Is(err, flow.ErrNobody)
	})
}

// An answer may be longer than anything that is told, but not without limit.
func testLongAnswer(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	must(t, south.Answer(func(_ context.Context, question []byte) []byte {
		return bytes.Repeat([]byte{'x', 0}, int(binary.BigEndian.Uint32(question))/2)
	}))
	for _, length := range []int{0, 10, flow.MostBytes, flow.MostBytes + 2, flow.MostAnswer, flow.MostAnswer + 2} {
		var got []byte
		var err error
		until(t, "an answer", func() bool {
			got, err = north.Ask(soon(t), "south", binary.BigEndian.AppendUint32(nil, uint32(length)))
			return !errors.Is(err, flow.ErrNobody)
		})
		if length > flow.MostAnswer {
			if !errors.Is(err, flow.ErrTooLong) {
				t.Errorf("%d bytes: %v; must be %q", length, err, flow.ErrTooLong)
			}
		} else if err != nil || !bytes.Equal(got, bytes.Repeat([]byte{'x', 0}, length/2)) {
			t.Errorf("%d bytes: %d come, %v", length, len(got), err)
		}
	}
}

// Questions are answered beside each other: one that takes long does not hold up the next.
func testQuestionsAtOnce(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	free := make(chan struct{})
	must(t, south.Answer(func(_ context.Context, question []byte) []byte {
		if string(question) == "wait" {
			<-free
		}
		return question
	}))
	until(t, "an answer", func() bool {
		_, err := north.Ask(soon(t), "south", nil)
		return err == nil
	})
	var asked sync.WaitGroup
	defer asked.Wait()
	for range 8 {
		asked.Go(func() {
			if got, err := north.Ask(soon(t), "south", []byte("wait")); err != nil || string(got) != "wait" {
				t.Errorf("%q, %v", got, err)
			}
		})
	}
	for i := range 100 {
		question := fmt.Append(nil, i)
		if got, err := north.Ask(soon(t), "south", question); err != nil || !bytes.Equal(got, question) {
			t.Errorf("%q, %v", got, err)
		}
	}
	close(free)
}

// Ask ends with its context. The answer's context ends with the engine, which waits for the answer.
func testUnawaited(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	asked, ended := make(chan struct{}, 1), make(chan struct{})
	must(t, south.Answer(func(ctx context.Context, question []byte) []byte {
		if len(question) > 0 {
			asked <- struct{}{}
			<-ctx.Done()
			close(ended)
		}
		return nil
	}))
	until(t, "an answer", func() bool {
		_, err := north.Ask(soon(t), "south", nil)
		return err == nil
	})
	ctx, cancel := context.WithCancel(t.Context())
	go func() {
		<-asked
		cancel()
	}()
	if _, err := north.Ask(ctx, "south", []byte("x")); !errors.Is(err, context.Canceled) {
		t.Errorf("%v; must be %q", err, context.Canceled)
	}
	must(t, south.Close())
	select {
	case <-ended:
	default:
		t.Error("Close did not wait for an answer")
	}
}
