package wire_test

import (
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/wiretest"
)

// What is missing from a stream that is read otherwise is told, with what to do.
func TestOtherAdvice(t *testing.T) {
	hud := "fd1300000007014a0000000048410000304100408643cdccccbe5b0037612c"
	for in, want := range map[string]string{
		"XGPSSim,1,2,3,4,5": "no attitude (XATT)",
		string(wiretest.Unhex(t,
			"7e0a01f000001c25e6b50ff216098a0008004201537472617475780000dbf67e")): "no attitude with a heading",
		string(wiretest.Unhex(t, hud)):                          "no ATTITUDE message",
		string(wiretest.Unhex(t, "525245462c040000000000c842")): "no attitude (true_psi",
		"$GPRMC,221743,A,2148.0000,N,15816.6000,W,100,270,,,A":  "no attitude, no airspeed",
	} {
		r := wire.NewReader(format.Options{})
		var s stream.Sample
		for i := range 30 {
			if err := r.Decode([]byte(in), float64(i), &s); err == nil {
				t.Fatalf("%q makes a sample", in)
			}
		}
		if !strings.Contains(r.Advice().String(), want) {
			t.Errorf("%q: advice %q", in, r.Advice())
		}
	}
}
