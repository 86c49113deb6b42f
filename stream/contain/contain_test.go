package contain

import (
	"errors"
	"fmt"
	"runtime"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"
)

// A fault ends its part alone. It is counted each time, and told once a minute, with the stack of what failed.
func TestRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var told []error
		f := New(func(err error) { told = append(told, err) })
		if !f.Run("station", "one", func() {}) || len(told) > 0 {
			t.Errorf("what is whole was told of: %v", told)
		}
		for range 3 {
			if f.Run("station", "one", fails) {
				t.Error("a fault was taken for a good end")
			}
		}
		var fault *Fault
		if len(told) != 1 || !errors.As(told[0], &fault) || !strings.Contains(string(fault.Stack), "contain.fails") ||
			!strings.HasPrefix(told[0].Error(), "station one was ended by a fault in the program") {
			t.Errorf("it told %q", told)
		}
		f.Run("viewer", "one", fails)
		<-time.After(quietFor + time.Second)
		f.Run("station", "one", fails)
		if n := testutil.ToFloat64(f.total.WithLabelValues("station")); n != 4 || len(told) != 3 {
			t.Errorf("%v faults of the station, %d told", n, len(told))
		}
	})
}

func fails() {
	var none []int
	_ = none[len(none)]
}

// However many parts fail, few are told of and remembered.
func TestRunBounded(t *testing.T) {
	told := 0
	f := New(func(error) { told++ })
	for i := range 10 * mostTold {
		f.Run("station", fmt.Sprint(i), fails)
	}
	if told != mostTold || len(f.told) != mostTold {
		t.Errorf("%d told, %d remembered", told, len(f.told))
	}
}

// The end of a goroutine that ends itself is no fault, and locks are released on the way out.
func TestRunEnded(t *testing.T) {
	f, over := New(nil), make(chan struct{})
	go func() {
		defer close(over)
		f.Run("station", "one", runtime.Goexit)
	}()
	<-over
	if n := testutil.ToFloat64(f.total.WithLabelValues("station")); n != 0 {
		t.Errorf("%g faults", n)
	}
}

// Without Faults a panic goes on.
func TestRunNil(t *testing.T) {
	outer := New(nil)
	var none *Faults
	if outer.Run("test", "", func() { none.Run("station", "", fails) }) {
		t.Error("it was contained")
	}
}
