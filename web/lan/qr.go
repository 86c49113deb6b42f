package lan

import (
	"fmt"
	"strings"

	"rsc.io/qr"
)

// quiet is the margin that a reader needs around the code, in modules: ISO/IEC 18004 asks for four.
const quiet = 4

// QR draws a text as a QR code, as SVG: black on white, whatever the page's colors are, for readers need the contrast.
func QR(text string) ([]byte, error) {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return nil, err
	}
	side := code.Size + 2*quiet
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %d %d" shape-rendering="crispEdges">`+
		`<path fill="#fff" d="M0 0h%dv%dH0z"/><path d="`, side, side, side, side)
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", from+quiet, y+quiet, x-from, x-from)
			}
		}
	}
	b.WriteString(`"/></svg>`)
	return []byte(b.String()), nil
}
