package console

import (
	"fmt"
	"os"
	"testing"

	"golang.org/x/sys/unix"

	"halfturn/coach/layout"
)

// terminal opens a pseudo terminal with the given number of columns.
func terminal(t *testing.T, columns uint16) *os.File {
	t.Helper()
	master, err := os.OpenFile("/dev/ptmx", os.O_RDWR, 0)
	if err != nil {
		t.Skipf("no pseudo terminals here: %v", err)
	}
	t.Cleanup(func() { master.Close() })
	fd := int(master.Fd())
	n, err := unix.IoctlGetInt(fd, unix.TIOCGPTN)
	if err == nil {
		err = unix.IoctlSetPointerInt(fd, unix.TIOCSPTLCK, 0)
	}
	if err == nil {
		err = unix.IoctlSetWinsize(fd, unix.TIOCSWINSZ, &unix.Winsize{Row: 24, Col: columns})
	}
	if err != nil {
		t.Skipf("no pseudo terminals here: %v", err)
	}
	slave, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|unix.O_NOCTTY, 0)
	if err != nil {
		t.Skipf("no pseudo terminals here: %v", err)
	}
	t.Cleanup(func() { slave.Close() })
	return slave
}

// The width is the terminal's, 80 where it does not say; NO_COLOR takes the styles away, TERM=dumb the shapes as well.
func TestTerminal(t *testing.T) {
	for _, c := range []struct {
		columns       uint16
		term, noColor string
		width         int
		glyphs, color bool
	}{
		{120, "xterm", "", 120, true, true},
		{0, "xterm", "", 80, true, true},
		{100, "xterm", "1", 100, true, false},
		{100, "dumb", "", 100, false, false},
	} {
		t.Setenv("TERM", c.term)
		t.Setenv("NO_COLOR", c.noColor)
		w := New(terminal(t, c.columns))
		if layout.WidthOf(w) != c.width || layout.HasGlyphs(w) != c.glyphs || w.screen.color != c.color {
			t.Errorf("%+v: %d columns, glyphs %v, color %v", c, layout.WidthOf(w), layout.HasGlyphs(w), w.screen.color)
		}
	}
}
