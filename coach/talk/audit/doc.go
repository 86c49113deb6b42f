// Package audit holds what is said in flight against the flight: its tests fly the recorded flights and the trainer's
// flaws, listen as an average voice does, and look at the state of the flight when the last word of each phrase ends.
// Its tables, testdata/*.txt, are to be read by a person.
package audit
