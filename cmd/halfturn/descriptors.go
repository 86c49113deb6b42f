package main

import (
	"fmt"
	"net"

	"github.com/rs/zerolog"

	"halfturn/configs/settings"
	"halfturn/web/guard"
)

// What of the files that the process may have open is kept back from the pages: for itself, and for each station its
// recording and what is written beside it.
const (
	ownFiles     = 48
	stationFiles = 2
)

// connections is how many connections the pages may have open, when the process may have that number of files open;
// 0 files is no limit. Recording comes first: at least three quarters of few files are kept back.
func connections(files, stations int) int {
	if files <= 0 {
		return guard.MostOpen
	}
	kept := min(ownFiles+stationFiles*stations, files*3/4)
	return min(max(files-kept, 1), guard.MostOpen)
}

// pageConnections is how many the pages may have open here. When that is few it is logged, with what to do.
func pageConnections(c *settings.Config, log zerolog.Logger) int {
	files := mostFiles()
	n := connections(files, c.MaxStations)
	if n < guard.MostOpen/8 {
		log.Warn().Int("files", files).Int("connections", n).Msg(fmt.Sprintf(
			"few files may be open at once, so the pages take few connections; a limit of %d (ulimit -n) is enough "+
				"for all",
			guard.MostOpen+ownFiles+stationFiles*c.MaxStations))
	}
	return n
}

// warnOpen logs what it means when others than this machine reach the pages.
func warnOpen(log zerolog.Logger, a net.Addr) {
	if tcp, ok := a.(*net.TCPAddr); ok && tcp.IP.IsLoopback() {
		return
	}
	log.Warn().Stringer("http", a).Msg("the pages are open to the network: whoever reaches this address can choose " +
		"what is flown, end sessions, and read names, remarks and grades, without a password. Open them only on a " +
		"network you trust, or serve them at 127.0.0.1 (--http)")
}
