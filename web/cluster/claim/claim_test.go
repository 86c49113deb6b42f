package claim

import (
	"testing"
	"time"
)

// TestCompare: of two claims of a station one holds, whichever node looks.
func TestCompare(t *testing.T) {
	order := []struct {
		node string
		Claim
	}{ // from the least
		{"a", Claim{Fence: 1, Doubt: true}},
		{"b", Claim{Fence: 1, Over: true}},
		{"a", Claim{Fence: 1, Over: true}},
		{"c", Claim{Fence: 1}},
		{"b", Claim{Fence: 2, Doubt: true}},
		{"b", Claim{Fence: 2, Over: true, Doubt: true}},
		{"b", Claim{Fence: 2}},
	}
	for i, x := range order {
		for k, y := range order {
			if got := x.Compare(x.node, y.Claim, y.node); (got > 0) != (i > k) || (got < 0) != (i < k) {
				t.Errorf("%+v of %s to %+v of %s: %d", x.Claim, x.node, y.Claim, y.node, got)
			}
		}
	}
}

// TestDecide holds the rule to its table.
func TestDecide(t *testing.T) {
	before, then, later := time.Unix(1, 0), time.Unix(2, 0), time.Unix(3, 0)
	own := Claim{Fence: 5}
	refused := &Refusal{Node: "b", Fence: 6, At: then}
	waited := &Refusal{Node: "b", Fence: 6, At: then, Waited: true}
	for _, c := range []struct {
		name string
		Sight
		do Act
		to string
	}{
		{"another holds by less", Sight{Coaches: true, Claim: own,
			Others: []Other{{Name: "b", Holds: true, Claim: Claim{Fence: 5, Over: true}}}}, Stay, ""},
		{"another holds by more", Sight{Coaches: true, Claim: own,
			Others: []Other{{Name: "b", Holds: true, Claim: Claim{Fence: 6}}}}, Leave, "b"},
		{"another holds by more, also while others are to be heard", Sight{Coaches: true, Claim: own, Listens: true,
			Others: []Other{{Name: "b", Holds: true, Claim: Claim{Fence: 6}}}}, Leave, "b"},
		{"refused, and the other has not spoken since", Sight{Coaches: true, Claim: own, Refused: refused,
			Others: []Other{{Name: "b", Heard: before}}}, Stay, ""},
		{"refused, and the other does not know yet", Sight{Coaches: true, Claim: own, Refused: refused,
			Others: []Other{{Name: "b", Heard: later, Holds: true, Claim: Claim{Fence: 5, Over: true}}}}, Stay, ""},
		{"refused, and the other has left the station", Sight{Coaches: true, Claim: own, Refused: refused,
			Others: []Other{{Name: "b", Heard: later}, {Name: "c", Heard: later}}}, Renew, ""},
		{"refused, and nobody was heard yet", Sight{Coaches: true, Claim: own, Refused: refused}, Stay, ""},
		{"refused, and the other is gone", Sight{Coaches: true, Claim: own, Refused: waited,
			Others: []Other{{Name: "c", Heard: later}}}, Renew, ""},
		{"refused in doubt, and the other is gone", Sight{Coaches: true, Claim: Claim{Fence: 5, Doubt: true},
			Refused: waited, Others: []Other{{Name: "c", Heard: later}}}, Leave, "b"},
		{"refused, and others are to be heard first", Sight{Coaches: true, Claim: own, Refused: refused, Listens: true},
			Stay, ""},
		{"refused, and the lease was given back", Sight{Coaches: true, Claim: own, Refused: &Refusal{Fence: 6}},
			Renew, ""},
		{"nobody holds it", Sight{Hears: true}, Take, ""},
		{"it is not heard", Sight{}, Stay, ""},
		{"others are to be heard", Sight{Hears: true, Listens: true}, Stay, ""},
		{"another holds it", Sight{Hears: true, Others: []Other{{Name: "b", Heard: later, Holds: true}}}, Stay, ""},
		{"it was left, and another has not spoken since", Sight{Hears: true, Left: then,
			Others: []Other{{Name: "b", Heard: before}}}, Stay, ""},
		{"it was left, and nobody holds it", Sight{Hears: true, Left: then,
			Others: []Other{{Name: "b", Heard: later, Hears: true}}}, Take, ""},
		{"a node before this one hears it too", Sight{Hears: true,
			Others: []Other{{Name: "A", Heard: later, Hears: true}}}, Stay, ""},
	} {
		c.Name = "a"
		if do, to := c.Decide(); do != c.do || to != c.to {
			t.Errorf("%s: %v %q; must be %v %q", c.name, do, to, c.do, c.to)
		}
	}
}
