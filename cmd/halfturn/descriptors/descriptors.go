// Package descriptors says how many connections may be open at once, so that recording does not run out of files.
package descriptors

// What is kept back from the connections: files for the program itself, and for each station its recording and what is
// written beside it.
const (
	OwnFiles     = 48
	StationFiles = 2
)

// Connections is how many connections may be open, at most the given number, when the process may have that number of
// files open; 0 files is no limit. Recording comes first: at least three quarters of few files are kept back.
func Connections(files, stations, most int) int {
	if files <= 0 {
		return most
	}
	kept := min(OwnFiles+StationFiles*stations, files*3/4)
	return min(max(files-kept, 1), most)
}

// Enough is the smallest limit of open files with which all connections may be open beside the recording of all
// stations.
func Enough(stations, most int) int { return most + OwnFiles + StationFiles*stations }
