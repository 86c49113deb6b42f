// Package trainer is the scripted pilot of the built-in aircraft: flights for the demonstration, for tests and for
// load, with the flaws a student shows, one at a time.
//
// A [Flight] says what is to be flown. [New] turns it into legs, each a plan of bank and nose against the angle turned
// (plan.go), bent by a flaw (flaw.go), and rehearses each once on a copy of the airplane to find how high the nose must
// go (rehearse.go). A [Pilot] then flies them by looking at attitude, altitude and airspeed, as a person does (leg.go).
// The airplane is in package airplane; package send sends what is flown as datagrams in any format of package encode.
//
// To add a maneuver, add its plan to the list maneuvers; to add a flaw, a row to the list flaws.
package trainer
