// Package probe describes a sender's stream for the person who sets a simulator up: what is received and how it is
// understood, which channels the chosen card needs, and what to change in the simulator.
package probe
