package console

import (
	"context"
	"os"
	"unsafe"

	"golang.org/x/sys/windows"
)

// Of the console's input events (consoleapi: INPUT_RECORD, KEY_EVENT_RECORD) and virtual keys.
const (
	keyEvent  = 1
	returnKey = 0x0d
)

// An inputRecord is INPUT_RECORD where it holds a KEY_EVENT_RECORD; other events are no larger.
type inputRecord struct {
	kind    uint16
	_       uint16
	down    int32
	repeats uint16
	key     uint16
	_       [2]uint16
	_       uint32
}

// Enter waits until Enter is pressed, and reports whether it was: not when ctx ends, or nothing more can come. A read
// of the console cannot be ended from outside, so its key events are taken one by one, as they come.
func Enter(ctx context.Context, typed *os.File) bool {
	console := windows.Handle(typed.Fd())
	read := windows.NewLazySystemDLL("kernel32.dll").NewProc("ReadConsoleInputW")
	for ctx.Err() == nil {
		switch event, err := windows.WaitForSingleObject(console, uint32(lookEvery.Milliseconds())); {
		case err != nil:
			return false
		case event != windows.WAIT_OBJECT_0:
			continue
		}
		var r inputRecord
		var n uint32
		ok, _, _ := read.Call(uintptr(console), uintptr(unsafe.Pointer(&r)), 1, uintptr(unsafe.Pointer(&n)))
		if ok == 0 {
			return false
		}
		if n == 1 && r.kind == keyEvent && r.down != 0 && r.key == returnKey {
			return true
		}
	}
	return false
}
