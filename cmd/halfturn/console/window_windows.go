package console

import (
	"bufio"
	"fmt"
	"os"
	"unsafe"

	"golang.org/x/sys/windows"
)

// HoldWindow keeps the window open until Enter is pressed, when a double click opened it for this program alone: else
// it would close before what went wrong can be read.
func HoldWindow() {
	list := windows.NewLazySystemDLL("kernel32.dll").NewProc("GetConsoleProcessList")
	var ids [2]uint32
	if n, _, _ := list.Call(uintptr(unsafe.Pointer(&ids[0])), uintptr(len(ids))); n != 1 {
		return
	}
	fmt.Fprint(os.Stderr, "Press Enter to close this window. ")
	_, _ = bufio.NewReader(os.Stdin).ReadString('\n')
}
