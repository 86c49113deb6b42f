package console

import "os"

// obeys reports whether the terminal obeys what styles text: the old console does not unless it is told to, the newer
// ones and those that come with other programs name themselves.
func obeys() bool { return os.Getenv("WT_SESSION") != "" || os.Getenv("TERM") != "" }
