// Package welcome says to whoever starts the server what to do next, and notices that a server runs already.
package welcome

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"time"
)

// Say prints the three steps to the first flight. The address stands on a line of its own, so that it can be copied.
func Say(w io.Writer, url string) {
	fmt.Fprintf(w, `
1. Open this page in a browser, if it is not open already:

%s

2. Choose your simulator, your aircraft and your maneuver there, and fly.
3. To end it, press Ctrl-C here. Nothing is lost.

`, url)
}

// patience is how long a server on this machine may take to answer.
const patience = time.Second

// Running reports whether this program serves already at an address, as the configuration has it: HOST:PORT.
func Running(ctx context.Context, address string) bool {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, URL(address)+"api/door", nil)
	if err != nil {
		return false
	}
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}} // without a proxy
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

// URL is where a browser on this machine finds the pages of an address.
func URL(address string) string {
	host, port, err := net.SplitHostPort(address)
	if ip := net.ParseIP(host); err == nil && (host == "" || ip != nil && ip.IsUnspecified()) {
		address = net.JoinHostPort("localhost", port)
	}
	return "http://" + address + "/"
}
