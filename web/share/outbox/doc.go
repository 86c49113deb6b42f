// Package outbox knows which sessions a school does not have whole, in a file, and says what to send of them next:
// their recordings, read from the disk from where the school says it stands, and what people added to them. Nothing of
// a recording is kept in memory, however long there is no link.
package outbox
