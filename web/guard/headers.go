package guard

import "net/http"

// policy allows this server's own files and sockets and nothing else: no inline scripts or styles, and no frames.
// Pictures may also be what a page has made itself (blob:): a drawing that is saved as PNG is painted from one.
const policy = "default-src 'self'; img-src 'self' blob:; base-uri 'none'; form-action 'none'; " +
	"frame-ancestors 'none'; object-src 'none'"

// Secure sets the headers that keep other pages, and text written by others, from running inside the pages of this
// server.
func Secure(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		next.ServeHTTP(w, r)
	})
}
