package aircraft

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// VA from a stall speed of 50 kt: 97.5, 104.9 and 122.5 kt at the limit loads of 14 CFR part 23 appendix A; a
// handbook's 105 kt at 2,300 lb are 95.4 at 1,900; 14 CFR 25.335(c) for the rule, V2 = V1·√(W2/W1) for the weight.
func TestManeuveringLimit(t *testing.T) {
	for _, r := range []struct {
		a    Aircraft
		want float64
	}{
		{Aircraft{Stall: 50, LoadMax: 3.8}, 97.5},
		{Aircraft{Stall: 50, LoadMax: 4.4}, 104.9},
		{Aircraft{Stall: 50, LoadMax: 6}, 122.5},
		{Aircraft{Stall: 49, LoadMax: 3.8}, 95.5},
		{Aircraft{Maneuvering: 105, Weight: 1900, MaxWeight: 2300}, 95.4},
		{Aircraft{Maneuvering: 105}, 105},
		{Aircraft{Stall: 50, LoadMax: 4.4, Maneuvering: 100}, 100},
		{Aircraft{Stall: 50}, 0},
	} {
		if got := r.a.ManeuveringLimit(); math.Abs(got-r.want) > 0.06 {
			t.Errorf("%+v: %.2f kt, published %g", r.a, got, r.want)
		}
	}
}

// 14 CFR 23.337(a): 3.8 g up to 4,118 lb, 3.17 g at 12,500 lb.
func TestHeavyNormal(t *testing.T) {
	for weight, want := range map[float64]float64{2000: 3.8, 4118: 3.8, 12500: 3.17} {
		if got := heavyNormal(weight); math.Abs(got-want) > 0.004 {
			t.Errorf("%g lb: %.3f g, published %g", weight, got, want)
		}
	}
}

func card(lines ...string) string {
	return "name = \"x\"\ntitle = \"X\"\nsource = \"invented for a test\"\n" + strings.Join(lines, "\n") + "\n"
}

// What contradicts itself is refused when it is checked, and read all the same.
func TestContradictions(t *testing.T) {
	for _, r := range []struct {
		name, card, want string
	}{
		{
			"entry over the corner speed", card("stall = 49", "entry = 105", "load-max = 3.8"),
			"x.toml:5: entry: is 105 kt; must be at most 95.5 kt, the stall speed of 49 kt times the root of 3.8 g",
		},
		{
			"entry over the maneuvering speed at the weight flown",
			card("entry = 100", "maneuvering = 105", "weight = 1900", "max-weight = 2300"),
			"x.toml:4: entry: is 100 kt; must be at most 95.4 kt, the maneuvering speed at the weight flown",
		},
		{
			"entry next to the stall", card("stall = 60", "entry = 61"),
			"x.toml:5: entry: is 61 kt; must be at least 75 kt, 1.25 times the stall speed of 60 kt",
		},
		{
			"entry of one maneuver", card("stall = 49", "load-max = 3.8", "[maneuver.wing-over]", "entry = 105"),
			"x.toml:7: maneuver.wing-over.entry: is 105 kt; must be at most 95.5 kt, the stall speed of 49 kt times " +
				"the root of 3.8 g",
		},
		{
			"entry over never exceed", card("entry = 180", "never = 160"),
			"x.toml:4: entry: is 180 kt; must be at most the never-exceed speed of 160 kt",
		},
		{
			"apex under the stall", card("stall = 49", "entry = 90", "apex = 45"),
			"x.toml:6: apex: is 45 kt; must not be below the stall speed of 49 kt",
		},
		{
			"glide under the stall", card("stall = 49", "glide = 45"),
			"x.toml:5: glide: is 45 kt; must be above the stall speed of 49 kt",
		},
		{
			"maneuvering speed far from the corner speed", card("stall = 49", "load-max = 3.8", "maneuvering = 120"),
			"x.toml:6: maneuvering: gives 120 kt; must be about 96 kt, the stall speed of 49 kt times the root of " +
				"3.8 g",
		},
		{
			"heavier than allowed", card("weight = 2400", "max-weight = 2300"),
			"x.toml:4: weight: is 2400; must be at most the max-weight of 2300",
		},
		{
			"too weak for its category", card(`category = "acrobatic"`, "load-max = 4.4"),
			"x.toml:5: load-max: is 4.4 g; must be at least 6.00 g in the acrobatic category",
		},
		{
			"steeper than its category", card(`category = "normal"`, "bank-max = 75"),
			"x.toml:5: bank-max: is 75°; must be at most 60° in the normal category",
		},
	} {
		if err := Check("x.toml", []byte(r.card)); err == nil || err.Error() != r.want {
			t.Errorf("%s:\n%v\nmust be\n%s", r.name, err, r.want)
		}
		if _, err := Load("x.toml", []byte(r.card)); err != nil {
			t.Errorf("%s is not read: %v", r.name, err)
		}
	}
}

// Speeds that agree within the rounding of handbooks are good, and so is a card that says little.
func TestAgreeing(t *testing.T) {
	for _, text := range []string{
		card(),
		card("stall = 49", "entry = 95", "load-max = 3.8", "maneuvering = 98"),
		card("stall = 49", "entry = 105"),
		card(`category = "normal"`, "load-max = 3.17", "weight = 12500"),
		card(`category = "acrobatic"`, "bank-max = 120"),
	} {
		if err := Check("x.toml", []byte(text)); err != nil {
			t.Errorf("%s%v", text, err)
		}
	}
}

// The category limits the bank where the card does not. 14 CFR 23.3: 60° in the normal category, 90° in utility.
func TestCategoryLimitsBank(t *testing.T) {
	for category, want := range map[string]float64{"normal": 60, "utility": 90, "acrobatic": 0} {
		a, err := Load("x.toml", []byte(card("category = \""+category+"\"")))
		if err != nil || a.BankMax != want {
			t.Errorf("%s: %+v, %v", category, a, err)
		}
	}
	if a, err := Load("x.toml", []byte(card(`category = "utility"`, "bank-max = 70"))); err != nil || a.BankMax != 70 {
		t.Errorf("%+v, %v", a, err)
	}
}

func TestShippedCardsAgree(t *testing.T) {
	files, err := filepath.Glob("../../configs/aircraft/*.toml")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d cards, %v", len(files), err)
	}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := Check(file, text); err != nil {
			t.Error(err)
		}
		a, err := Load(file, text)
		if err != nil || a.BankMax == 0 || a.ManeuveringLimit() == 0 || a.Never == 0 {
			t.Errorf("%s lacks a limit: %+v, %v", file, a, err)
		}
	}
}
