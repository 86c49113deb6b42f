//go:build !unix

package signals

// ReadInBackground lets a program that reads its terminal go on in the background; it does so here.
func ReadInBackground() {}
