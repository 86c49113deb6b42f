// Package welcome says to whoever starts the server what to do next, and notices that a server runs already.
package welcome

import (
	"context"
	"crypto/tls"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"

	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

// Say prints the three steps to the first flight, in a language. The address stands on a line of its own, so that it
// can be copied.
func Say(w io.Writer, url string, in *phrase.Language) {
	page := layout.NewPage(w)
	fmt.Fprintf(page, "\n1. %s\n\n", in.Word("Open this page in a browser, if it is not open already:"))
	fmt.Fprintf(page, "%s\n\n", url)
	fmt.Fprintf(page, "2. %s\n", in.Word("Choose your simulator, your aircraft and your maneuver there, and fly."))
	fmt.Fprintf(page, "3. %s\n\n", in.Word("To end it, press Ctrl-C here. Nothing is lost."))
	_ = page.Err() // nowhere is left to say it
}

// patience is how long a server on this machine may take to answer.
const patience = time.Second

// Running reports whether this program serves already at an address, as the configuration has it: HOST:PORT, encrypted
// or not.
func Running(ctx context.Context, address string, encrypted bool) bool {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, URL(address, encrypted)+"api/door", nil)
	if err != nil {
		return false
	}
	client := &http.Client{Transport: &http.Transport{ // without a proxy
		DisableKeepAlives: true,
		// Nothing is told to who answers, and nothing of the answer is trusted but that it is this program.
		TLSClientConfig: &tls.Config{InsecureSkipVerify: true},
	}}
	answer, err := client.Do(r)
	if err != nil {
		return false
	}
	defer answer.Body.Close()
	var door struct {
		Program string `json:"program"`
	}
	err = json.NewDecoder(io.LimitReader(answer.Body, 1<<20)).Decode(&door)
	return err == nil && answer.StatusCode == http.StatusOK && door.Program == "halfturn"
}

// URL is where a browser on this machine finds the pages of an address, encrypted or not.
func URL(address string, encrypted bool) string {
	host, port, err := net.SplitHostPort(address)
	if ip := net.ParseIP(host); err == nil && (host == "" || ip != nil && ip.IsUnspecified()) {
		address = net.JoinHostPort("localhost", port)
	}
	if encrypted {
		return "https://" + address + "/"
	}
	return "http://" + address + "/"
}
