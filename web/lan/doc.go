// Package lan opens the pages to the local network while somebody asks for it, so that a tablet or a phone can stand
// beside the simulator. The pages themselves are bound to this machine; opening listens at its private addresses, too,
// and makes a code of six digits, which each device has to type once. It then has a pass until the network is closed.
//
// Wrong codes are counted: after a number of them the network closes itself, so that a code cannot be found by trying.
package lan
