package stream_test

import (
	"slices"
	"testing"

	"halfturn/stream"
)

// Every channel has a whole row, and every property fits the others.
func TestChannelTable(t *testing.T) {
	names := stream.ChannelNames()
	if len(names) != int(stream.NumChannels) || stream.NumChannels > 64 {
		t.Fatalf("%d names for %d channels; a Set holds 64", len(names), stream.NumChannels)
	}
	for i, name := range names {
		c := stream.Channel(i)
		in := c.Info()
		if in.Name == "" || in.Title == "" || in.Unit == "" || !(in.Min < in.Max) || !(in.Carry > 0) {
			t.Errorf("channel %d lacks part of its row: %+v", i, *in)
		}
		if in.Name != name || c.String() != name {
			t.Errorf("channel %d: name %q and %q", i, in.Name, c)
		}
		if in.Circular && (in.Min != 0 || in.Max != 360) {
			t.Errorf("%s: circular, but %v to %v", name, in.Min, in.Max)
		}
		if in.Signed && (in.Min != -180 || in.Max != 180) {
			t.Errorf("%s: signed, but %v to %v", name, in.Min, in.Max)
		}
		if in.Flag != (in.Unit == "flag") || in.Flag && (in.Min != 0 || in.Max != 1) {
			t.Errorf("%s: flag %v, in %s, %v to %v", name, in.Flag, in.Unit, in.Min, in.Max)
		}
		if in.Sided && in.Min != -in.Max {
			t.Errorf("%s: has a side, but goes from %v to %v", name, in.Min, in.Max)
		}
		if back, ok := stream.ChannelNamed(name); !ok || back != c {
			t.Errorf("name %q leads to channel %d, %v", name, back, ok)
		}
	}
	if _, ok := stream.ChannelNamed("nonsense"); ok {
		t.Error("a channel named nonsense")
	}
	if got := stream.NumChannels.String(); got != "none" {
		t.Errorf("name of no channel: %q", got)
	}
}

// What changes its sign when a turn to the right is flown to the left: what is lateral or about the forward and down
// axes, and the controls that cause it. A symmetric airplane flies the mirror image with the same pitch, speeds and
// normal load.
func TestMirror(t *testing.T) {
	var s stream.Sample
	for c := range stream.NumChannels {
		if c != stream.Torque { // one that the sample lacks
			s.Put(c, 0.5)
		}
	}
	m := s
	m.Mirror()
	changed := []string{}
	for c := range stream.NumChannels {
		switch v := m.Value(c); {
		case v == -s.Value(c) && v != 0:
			changed = append(changed, c.String())
		case v != s.Value(c):
			t.Errorf("%s becomes %v", c, v)
		}
	}
	if got := stream.Sided.Names(); !slices.Equal(changed, got) {
		t.Errorf("changed %v, sided %v", changed, got)
	}
	want := []string{"bank", "sideslip", "ball", "lateral-load", "roll-rate", "yaw-rate", "aileron", "rudder"}
	if !slices.Equal(changed, want) {
		t.Errorf("%v change their sign; must be %v", changed, want)
	}
	if m.Mirror(); m != s {
		t.Error("mirrored twice it is another sample")
	}
}

func TestSet(t *testing.T) {
	set := stream.Set(0).With(stream.Paused).With(stream.Time).With(stream.Bank)
	if got, want := set.Names(), []string{"time", "bank", "paused"}; !slices.Equal(got, want) {
		t.Errorf("names %v; must be %v", got, want)
	}
	if set = set.Without(stream.Bank); set.Has(stream.Bank) || !set.Has(stream.Time) || !set.Has(stream.Paused) {
		t.Errorf("without bank: %v", set.Names())
	}
	if got := stream.Set(0).Names(); got == nil || len(got) != 0 { // an empty JSON list, not null
		t.Errorf("names of the empty set: %#v", got)
	}
}
