package who

import (
	"encoding/json"
	"testing"
)

// The zero value is nobody known, and is left out where a field says omitzero.
func TestWho(t *testing.T) {
	for by, want := range map[Who]string{
		Owner():             `{"by":{"name":"owner"}}`,
		{Name: "Ada \"E\""}: `{"by":{"name":"Ada \"E\""}}`,
		{}:                  `{}`,
	} {
		text, err := json.Marshal(struct {
			By Who `json:"by,omitzero"`
		}{by})
		if err != nil || string(text) != want {
			t.Errorf("%+v is %s, %v; must be %s", by, text, err, want)
		}
		var back struct{ By Who }
		if err := json.Unmarshal(text, &back); err != nil || back.By != by {
			t.Errorf("%s is read as %+v, %v", text, back.By, err)
		}
	}
}
