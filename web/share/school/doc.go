// Package school takes the stations of Halfturns at home: each comes over one WebSocket with the key of a station, and
// appears here under the name of that station.
//
// What a link brings live is coached for the pages at once, as a recording is that is played: by the times of the home,
// without a recorder. Its recording is copied behind that, file by file, into the folder of the session ([inbox]); when
// it is complete it is graded and entered in the logbook. So there are two coaches, one that shows and one that counts.
// Viewers see a lost link as a stream that stops and goes on: a leg that was being flown meanwhile is broken off on
// their panel, and whole on the page of the session.
//
// A command for such a station is sent to the home and done there; here nothing is done. It comes back on the live lane
// as what it did, and in the recording.
package school
