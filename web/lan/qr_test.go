package lan

import (
	"regexp"
	"strconv"
	"testing"
)

// The picture has the size and the patterns of ISO/IEC 18004: 17 + 4v modules a side, a margin of four, and a finder
// pattern of seven modules, 1:1:3:1:1, in three corners. The modules themselves are the library's.
func TestQR(t *testing.T) {
	svg, err := QR("http://192.168.100.200:7180/")
	if err != nil {
		t.Fatal(err)
	}
	side, black := modules(t, string(svg))
	if n := side - 2*quiet; n < 21 || (n-17)%4 != 0 {
		t.Fatalf("%d modules a side; must be 17 + 4v", n)
	}
	finder := []string{"1111111", "1000001", "1011101", "1011101", "1011101", "1000001", "1111111"}
	far := side - quiet - 7
	for _, corner := range [][2]int{{quiet, quiet}, {far, quiet}, {quiet, far}} {
		for y, row := range finder {
			for x, want := range row {
				if black[[2]int{corner[0] + x, corner[1] + y}] != (want == '1') {
					t.Fatalf("the finder pattern at %v is broken at %d, %d", corner, x, y)
				}
			}
		}
	}
	for at := range black {
		if min(at[0], at[1]) < quiet || max(at[0], at[1]) >= side-quiet {
			t.Errorf("the margin is not empty at %v", at)
		}
	}
}

// modules reads the runs of the path: M x y h n v1 h -n z.
func modules(t *testing.T, svg string) (side int, black map[[2]int]bool) {
	t.Helper()
	box := regexp.MustCompile(`viewBox="0 0 (\d+) (\d+)"`).FindStringSubmatch(svg)
	if box == nil || box[1] != box[2] {
		t.Fatalf("no square: %.200s", svg)
	}
	side, _ = strconv.Atoi(box[1])
	black = map[[2]int]bool{}
	for _, m := range regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1h-(\d+)z`).FindAllStringSubmatch(svg, -1) {
		x, _ := strconv.Atoi(m[1])
		y, _ := strconv.Atoi(m[2])
		n, _ := strconv.Atoi(m[3])
		for i := range n {
			black[[2]int{x + i, y}] = true
		}
	}
	return side, black
}
