// Package people holds who may use this Halfturn when it is opened to others: users, those who are logged in, links by
// which a guest watches one station, the keys of stations that send from elsewhere, and a log of what was asked for. It
// is not part of the logbook: a logbook can be rebuilt from the session folders, people cannot.
//
// [Store] is what a database must answer; package sqlite is one, and package peopletest holds what every one of them
// has to do. Secrets are made and compared by package secret; a store keeps their hashes alone.
package people
