package browser

import "testing"

func TestCommand(t *testing.T) {
	for system, want := range map[string]string{"linux": "xdg-open", "darwin": "open", "windows": "rundll32"} {
		name, args := command(system, "http://127.0.0.1:1/")
		if name != want || args[len(args)-1] != "http://127.0.0.1:1/" {
			t.Errorf("%s: %s %q", system, name, args)
		}
	}
}
