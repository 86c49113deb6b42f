// Package who says who asks for something to be changed. Every call that changes what is stored takes a [Who], which is
// kept with the change.
package who

// A Who is somebody who asks. The zero value is nobody known.
type Who struct {
	Name string `json:"name"`
}

// Owner is whoever the machine belongs to: so far everybody who can ask.
func Owner() Who { return Who{Name: "owner"} }
