package aircraft_test

import (
	"testing"

	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/stream/trainer/airplane"
)

// TestTrainerFliesTheCards holds the built-in airplanes of the trainer to the aircraft cards of the same names: what
// the brief asks for is what the trainer shows.
func TestTrainerFliesTheCards(t *testing.T) {
	library, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	names := airplane.Names()
	if len(names) != len(library.Aircraft()) {
		t.Errorf("the trainer has %d airplanes, and there are %d aircraft cards", len(names), len(library.Aircraft()))
	}
	for _, name := range names {
		card, err := library.AircraftNamed(name)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		model, err := airplane.Named(name)
		if err != nil {
			t.Fatal(err)
		}
		if model.Title != card.Title || model.Stall != card.Stall || model.Apex != card.Apex {
			t.Errorf("%s: title, stall and apex %q, %g, %g; the card has %q, %g, %g", name,
				model.Title, model.Stall, model.Apex, card.Title, card.Stall, card.Apex)
		}
		for _, m := range library.Cards() {
			if got, want := model.EntryFor(m.Name), card.For(m.Name).Entry; got != want {
				t.Errorf("%s enters the %s at %g kt; the card says %g", name, m.Name, got, want)
			}
		}
	}
}
