package stream_test

import (
	"math"
	"slices"
	"testing"

	"halfturn/stream"
)

func TestChannelTable(t *testing.T) {
	names := stream.ChannelNames()
	if len(names) != int(stream.NumChannels) || stream.NumChannels > 64 {
		t.Fatalf("%d names for %d channels; a Set holds 64", len(names), stream.NumChannels)
	}
	for i, name := range names {
		c := stream.Channel(i)
		info := c.Info()
		if info.Name != name || c.String() != name || info.Title == "" || info.Unit == "" {
			t.Errorf("channel %d: name %q, title %q, unit %q", i, info.Name, info.Title, info.Unit)
		}
		if !(info.Min < info.Max) {
			t.Errorf("%s: range %v to %v", name, info.Min, info.Max)
		}
		if info.Circular && (info.Min != 0 || info.Max != 360) {
			t.Errorf("%s: circular, but %v to %v", name, info.Min, info.Max)
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

func TestSet(t *testing.T) {
	set := stream.Set(0).With(stream.Paused).With(stream.Time).With(stream.Bank)
	if got, want := set.Names(), []string{"time", "bank", "paused"}; !slices.Equal(got, want) {
		t.Errorf("names %v, want %v", got, want)
	}
	if set = set.Without(stream.Bank); set.Has(stream.Bank) || !set.Has(stream.Time) || !set.Has(stream.Paused) {
		t.Errorf("without bank: %v", set.Names())
	}
	if got := stream.Set(0).Names(); got == nil || len(got) != 0 { // an empty JSON list, not null
		t.Errorf("names of the empty set: %#v", got)
	}
}

func TestWrap(t *testing.T) {
	tests := []struct{ in, in360, in180 float64 }{
		{0, 0, 0}, {359.5, 359.5, -0.5}, {360, 0, 0}, {-0.25, 359.75, -0.25}, {180, 180, -180},
		{-180, 180, -180}, {725, 5, 5}, {-541, 179, 179}, {-1e-15, 0, 0},
	}
	for _, test := range tests {
		if got := stream.Wrap360(test.in); math.Abs(got-test.in360) > 1e-9 || got < 0 || got >= 360 {
			t.Errorf("Wrap360(%v) = %v, want %v", test.in, got, test.in360)
		}
		if got := stream.Wrap180(test.in); math.Abs(got-test.in180) > 1e-9 || got < -180 || got >= 180 {
			t.Errorf("Wrap180(%v) = %v, want %v", test.in, got, test.in180)
		}
	}
}
