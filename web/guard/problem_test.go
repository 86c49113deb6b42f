package guard

import (
	"net/http"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/stream/phrase"
)

func TestProblemBody(t *testing.T) {
	for _, tt := range []struct {
		is   phrase.Phrase
		want string
	}{
		{phrase.Plain("disk full"), `{"error":"disk full"}`},
		{phrase.NoLogbook.Of(), `{"error":"this server keeps no logbook","code":"logbook.none","args":{}}`},
		{
			phrase.NoSuchLeg.Of(phrase.Int("legs", 2), phrase.Int("leg", 5)),
			`{"error":"the session has 2 legs; there is none numbered 5","code":"leg.unknown",` +
				`"args":{"legs":{"value":2},"leg":{"value":5}}}`,
		},
	} {
		p := &Problem{http.StatusNotFound, tt.is}
		if d := cmp.Diff(tt.want+"\n", string(p.body())); d != "" {
			t.Error(d)
		}
		if p.Error() != tt.is.String() {
			t.Errorf("the error is %q", p.Error())
		}
	}
}
