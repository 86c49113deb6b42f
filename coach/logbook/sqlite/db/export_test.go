package db

// AddIDs is the last migration's second half, for the tests.
var AddIDs = addIDs
