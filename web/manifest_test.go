package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image/png"
	"net/http"
	"strings"
	"testing"
)

// TestManifest holds the manifest against what browsers ask of a page that can be installed: a
// name, a start, a display of its own, and icons of 192 and 512 pixels (W3C Web Application
// Manifest, sections 1 and 2; the sizes are common practice, from memory).
func TestManifest(t *testing.T) {
	s, _, _ := newServer(t, Config{})
	w := request(s, http.MethodGet, "/manifest.webmanifest", "", nil)
	if kind := w.Header().Get("Content-Type"); w.Code != http.StatusOK || kind != "application/manifest+json" {
		t.Fatalf("status %d, type %q", w.Code, kind)
	}
	var m struct {
		Name    string
		Start   string `json:"start_url"`
		Display string
		Icons   []struct{ Src, Sizes, Type, Purpose string }
	}
	if err := json.Unmarshal(w.Body.Bytes(), &m); err != nil {
		t.Fatal(err)
	}
	if m.Name == "" || m.Start != "./" || m.Display != "standalone" {
		t.Errorf("name %q, start %q, display %q", m.Name, m.Start, m.Display)
	}
	sizes := map[string]bool{}
	for _, icon := range m.Icons {
		w := request(s, http.MethodGet, "/"+icon.Src, "", nil)
		if kind := w.Header().Get("Content-Type"); w.Code != http.StatusOK || kind != icon.Type {
			t.Errorf("%s: status %d, type %q, want %q", icon.Src, w.Code, kind, icon.Type)
			continue
		}
		if icon.Type != "image/png" {
			continue
		}
		c, err := png.DecodeConfig(bytes.NewReader(w.Body.Bytes()))
		if size := fmt.Sprintf("%dx%d", c.Width, c.Height); err != nil || size != icon.Sizes {
			t.Errorf("%s: %s, %v; the manifest says %s", icon.Src, size, err, icon.Sizes)
		}
		sizes[icon.Sizes] = true
	}
	if !sizes["192x192"] || !sizes["512x512"] {
		t.Errorf("icons of %v", sizes)
	}
	for name, p := range s.pages {
		if strings.HasSuffix(name, ".html") && !strings.Contains(string(p.data), "manifest.webmanifest") {
			t.Errorf("%s does not name the manifest", name)
		}
	}
}
