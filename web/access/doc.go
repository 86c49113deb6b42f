// Package access finds out who makes a request, and lets people in: by name and password, by the link of an invitation,
// or, on the machine itself, because nobody else is set up there.
//
// # Who asks
//
// In this order:
//
//   - a browser with the cookie of a login is who logged in;
//   - a request from this machine comes from its owner while no users are set up, or where the setting
//     access.home-is-owner says so, unless a proxy passed it on;
//   - anything else is nobody known. A device of the local network that typed the code is known to package lan.
//
// The cookie holds a random token of 256 bits; the store has its hash. It is HttpOnly and SameSite=Strict, and over TLS
// Secure and named with the prefix __Host-. A login always makes a new token, and whatever changes what a user may do
// ends all their logins, so that no token outlives its rights. When a login ends, its live sockets are closed.
//
// # Against guessing
//
// Attempts are counted before the password is looked at, for the account from one address, for the address, and for the
// account. After some that are free, each has to wait twice as long as the one before, up to a quarter of an hour. The
// tables are bounded. An account that does not exist costs as much time as one that does, and gets the same answer.
//
// # The log
//
// Everything that somebody known asks to be changed is noted: who, when, from which address, what, on which station or
// session, and what came of it. Bodies are not, so neither are secrets.
package access
