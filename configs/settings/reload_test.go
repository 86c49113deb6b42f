package settings

import (
	"reflect"
	"slices"
	"testing"
)

// Each key that differs is named once, as one that is taken over or as one that needs a restart, and Updated takes over
// those that Changes says, and no other.
func TestChanges(t *testing.T) {
	load := func() *Config {
		c, err := Load("", none)
		if err != nil {
			t.Fatal(err)
		}
		c.TLS = TLS{Certificate: "pages.pem", Key: "pages.key"} // so that a change of file is no other protocol
		return c
	}
	var all, live []string
	var visit func(t reflect.Type, at []int, prefix string)
	visit = func(s reflect.Type, at []int, prefix string) {
		for f := range s.Fields() {
			if !f.IsExported() {
				continue
			}
			index, key := append(slices.Clone(at), f.Index...), prefix+f.Tag.Get("toml")
			if f.Type.Kind() == reflect.Struct && f.Type != reflect.TypeFor[Duration]() {
				visit(f.Type, index, key+".")
				continue
			}
			all = append(all, key)
			before, again := load(), load()
			alter(t, reflect.ValueOf(again).Elem().FieldByIndex(index))
			taken, restart := before.Changes(again)
			if !slices.Equal(append(slices.Clone(taken), restart...), []string{key}) {
				t.Errorf("%s: taken over %v, restart %v", key, taken, restart)
			}
			live = append(live, taken...)
			left, still := before.Updated(again).Changes(again)
			if len(left) > 0 || !slices.Equal(still, restart) {
				t.Errorf("%s: after it is taken over, %v and %v differ; %v needs a restart", key, left, still, restart)
			}
		}
	}
	visit(reflect.TypeFor[Config](), nil, "")
	want := []string{"cards", "judging.required", "judging.student-first", "log.level", "max-rate", "max-stations",
		"recording.compress", "recording.keep-days", "recording.keep-size", "tls.certificate", "tls.key"}
	if slices.Sort(live); !slices.Equal(live, want) {
		t.Errorf("taken over are %v; must be %v", live, want)
	}
	for _, key := range []string{"http", "udp", "data", "station", "access.home-is-owner", "session-idle"} {
		if !slices.Contains(all, key) {
			t.Errorf("%s was not tried", key)
		}
	}
}

// alter gives a value of any kind of setting another one.
func alter(t *testing.T, v reflect.Value) {
	t.Helper()
	switch v.Kind() {
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.Int:
		v.SetInt(v.Int() + 1)
	case reflect.Float64:
		v.SetFloat(v.Float() + 1)
	case reflect.Slice:
		v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
	case reflect.Struct:
		v.Set(reflect.ValueOf(Duration{v.Interface().(Duration).Duration + 1}))
	default:
		t.Fatalf("a setting of kind %v", v.Kind())
	}
}

// TLS that is switched on or off is another protocol on an open socket.
func TestTLSNeedsRestart(t *testing.T) {
	without, err := Load("", none)
	if err != nil {
		t.Fatal(err)
	}
	with := *without
	with.TLS = TLS{Certificate: "pages.pem", Key: "pages.key"}
	for _, c := range [][2]*Config{{without, &with}, {&with, without}} {
		taken, restart := c[0].Changes(c[1])
		if len(taken) > 0 || !slices.Equal(restart, []string{"tls.certificate", "tls.key"}) ||
			c[0].Updated(c[1]).TLS != c[0].TLS {
			t.Errorf("taken over %v, restart %v", taken, restart)
		}
	}
}
