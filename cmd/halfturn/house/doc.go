// Package house is the rules of the house, as tests: in which direction packages import each other, which of them are
// pure, how long lines, functions and files may be, and what must be documented. It holds no code of the program.
package house
