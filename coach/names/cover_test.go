package names

import (
	"strings"
	"testing"
)

// TestCover covers whole names in any capital letters, the longest first, and leaves what is covered.
func TestCover(t *testing.T) {
	hash := strings.Repeat("ada0", 16)
	c := NewCover(map[string]string{"Ada": Covered(hash), "Ada Example": "X", "Bo": "", "Zoë": "Z"})
	for in, want := range map[string]string{
		"":                                      "",
		"Ada":                                   Covered(hash),
		"ADA EXAMPLE and Ada":                   "X and " + Covered(hash),
		"Adam, Nevada, Ada2":                    "Adam, Nevada, Ada2",
		"Ada's turn (Ada).":                     Covered(hash) + "'s turn (" + Covered(hash) + ").",
		Covered(hash) + " ada":                  Covered(hash) + " " + Covered(hash),
		"Bo, zoË, Zoe":                          "Bo, Z, Zoe",
		"⟦ada⟧":                                 "⟦" + Covered(hash) + "⟧",
		"Ada \xff":                              Covered(hash) + " \xff",
		"{\"name\":\"Ada Example\",\"x\":\"\"}": "{\"name\":\"X\",\"x\":\"\"}",
	} {
		if got := c.In(in); got != want {
			t.Errorf("%q: is %q; must be %q", in, got, want)
		}
	}
	if got := Readable("by " + Covered(hash) + ", ⟦x⟧"); got != "by "+Removed+", ⟦x⟧" {
		t.Errorf("%q", got)
	}
	if !Holds("by ada example.", "Ada Example") || Holds("by Adam", "Ada") {
		t.Error("a name is not found, or found in another")
	}
}

// FuzzCover: covering twice is covering once, and names covered one after the other are as those covered together: so a
// signature holds when one of its names is removed after it.
func FuzzCover(f *testing.F) {
	f.Add("Ada Example said: Ada, less bank. Bo", "Ada", "Ada Example")
	f.Add("ada", "Bo", "bo bo")
	f.Fuzz(func(t *testing.T, text, a, b string) {
		if Key(a) == Key(b) || strings.ContainsAny(a+b, coverOpens+coverEnds) {
			return
		}
		x, y := Covered(strings.Repeat("a", 64)), Covered(strings.Repeat("b", 64))
		both := NewCover(map[string]string{a: x, b: y})
		want := both.In(text)
		if got := both.In(want); got != want {
			t.Fatalf("%q covered twice is %q", want, got)
		}
		first := NewCover(map[string]string{a: x, b: ""}).In(text)
		if got := both.In(first); got != want {
			t.Fatalf("%q one after the other is %q; must be %q", text, got, want)
		}
	})
}
