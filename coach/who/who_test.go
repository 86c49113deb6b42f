package who

import (
	"encoding/json"
	"strings"
	"testing"
)

// The zero value is nobody known, and is left out where a field says omitzero. Recordings and session folders hold
// these texts: what an earlier version wrote has a name alone, and is read as it was written.
func TestWho(t *testing.T) {
	for by, text := range map[Who]string{
		Owner():             `{"by":{"name":"owner","role":"owner"}}`,
		{Name: "owner"}:     `{"by":{"name":"owner"}}`,
		{Name: "Ada \"E\""}: `{"by":{"name":"Ada \"E\""}}`,
		{}:                  `{}`,
		{ID: "01J", Name: "Ada", Role: RoleInstructor}: `{"by":{"id":"01J","name":"Ada","role":"instructor"}}`,
	} {
		got, err := json.Marshal(struct {
			By Who `json:"by,omitzero"`
		}{by})
		if err != nil || string(got) != text {
			t.Errorf("%+v is %s, %v; must be %s", by, got, err, text)
		}
		var back struct{ By Who }
		if err := json.Unmarshal(got, &back); err != nil || back.By != by {
			t.Errorf("%s is read as %+v, %v", got, back.By, err)
		}
	}
}

func TestRoleNamed(t *testing.T) {
	for _, r := range Roles() {
		if got, err := RoleNamed(string(r)); got != r || err != nil {
			t.Errorf("%q is %q, %v", r, got, err)
		}
	}
	for _, bad := range []string{"", "Owner", "admin"} {
		if r, err := RoleNamed(bad); err == nil || r != "" || !strings.Contains(err.Error(), "viewer") {
			t.Errorf("%q is %q, %v", bad, r, err)
		}
	}
}
