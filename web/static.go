package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"io/fs"
	"net/http"
	"path"
	"slices"
	"strings"
	"time"

	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

//go:embed static
var embedded embed.FS

// kinds are the media types of the pages' files. The system's own table is not asked: it
// differs from machine to machine.
var kinds = map[string]string{
	".html": "text/html; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".svg":  "image/svg+xml",
	".ts":   "text/plain; charset=utf-8",
	".png":  "image/png",

	".webmanifest": "application/manifest+json",
}

// A page is one embedded file.
type page struct {
	data []byte
	kind string
	etag string
}

// embeddedPages reads the files that are built into the program.
func embeddedPages() (map[string]page, error) {
	files, err := fs.Sub(embedded, "static")
	if err != nil {
		return nil, err
	}
	return pages(files)
}

// pages reads the embedded files, by URL path.
func pages(files fs.FS) (map[string]page, error) {
	all := map[string]page{}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		sum := sha256.Sum256(data)
		p := page{data: data, kind: kinds[path.Ext(name)], etag: `"` + hex.EncodeToString(sum[:12]) + `"`}
		all["/"+name] = p
		if plain, ok := strings.CutSuffix("/"+name, ".html"); ok {
			all[plain] = p // /setup
		}
		if dir, ok := strings.CutSuffix("/"+name, "index.html"); ok {
			all[dir] = p
		}
		return nil
	})
	return all, err
}

// static serves the pages. They are small and change with the program, so a browser asks
// each time and mostly hears that nothing has changed.
func (s *Server) static(w http.ResponseWriter, r *http.Request) error {
	p, ok := s.pages[r.URL.Path]
	if !ok {
		return noPage(r)
	}
	return s.serve(w, r, p)
}

// parts lists what pages are made of, for the service worker that keeps them.
func (s *Server) parts(w http.ResponseWriter, _ *http.Request) error {
	list := []string{}
	for path := range s.pages {
		if !strings.HasSuffix(path, ".ts") && !strings.HasSuffix(path, ".html") {
			list = append(list, path)
		}
	}
	slices.Sort(list)
	return guard.WriteJSON(w, map[string][]string{"parts": list})
}

func noPage(r *http.Request) error {
	return &guard.Problem{Status: http.StatusNotFound, Phrase: phrase.NoPage.Of(phrase.Name("path", r.URL.Path))}
}

func (s *Server) serve(w http.ResponseWriter, r *http.Request, p page) error {
	w.Header().Set("Content-Type", p.kind)
	w.Header().Set("ETag", p.etag)
	w.Header().Set("Cache-Control", "no-cache")
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(p.data))
	return nil
}
