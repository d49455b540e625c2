// Package link writes a plan's document (core/merge) as the fragment of an address, and
// reads it again.
//
// The link is the product's only database: a navigator texts it, a family passes it round,
// it is printed as a QR code. So it is as short as we can make it, and nothing in it is
// taken for granted when it comes back. Encode and Decode are what most callers need;
// ReadHead reads the day alone, Trim finds a link in what people paste, EncodePart makes a
// read-only link for one helper.
//
// A fragment is base64url (RFC 4648 section 5, no padding) of
//
//	9 bytes        the head
//	0 to many      the body
//	2 or 3 bytes   a checksum of both (checksum.go)
//
// # The head
//
// The head is fixed, byte for byte, in all versions from 3 to 31, and simple enough to be
// read before the core is there (web/head.ts). Both readers run testdata/link/heads.
//
//	bits  what                         why so, and not shorter
//	6     version                      one character; 0 is an older link, 32 a locked one
//	32    the plan's number            joins copies and nothing else: of a thousand plans two
//	                                   have one number with a chance of 1 in 8,600
//	16    surgery, days from           covers plan's whole range; a day of the week or a
//	      1 January 2000               year fewer would not save a character
//	11    arrival in minutes           2047 is “not known yet”
//	2     nights in hospital           these and the next three fill the ninth byte:
//	1     knee or hip                  in the body the four would cost about as much
//	2     operation
//	1     the body has stamps          a plan just made has none, and is spared all of them
//	1     it is one helper's part
//
// # The body
//
// The body is one stream of an arithmetic coder whose models learn as they go (core/pack).
// There are no lengths, types or field names in it: both sides make the same calls in the
// same order, and each call costs what its answer is worth as news. In order, with what
// each part takes of the row link/family-merge (five helpers, twelve weeks, 60 changes by
// five devices; go run ./build bench prints it):
//
//	bits  what                         why so, and not shorter
//	130   devices                      22 bits each, by chance, so that two do not take the same
//	                                   one (the maker is 0); and how often each changed the plan
//	1     values beside the head's     only where two people wrote different ones
//	8     program                      its number, or what the hospital sets by itself
//	48    plan                         first name, minutes, facts: one bit each, in their order
//	174   helpers                      names as text, their order; whose the devices are; who
//	                                   has the duties that every plan has, as places in the list
//	108   ticks                        steps between their numbers
//	227   duties                       numbers, kinds, lengths, minutes: what the last duty of the
//	                                   kind had, if it is the same
//	1165  duty texts                   2.1 bits a character, by a model of names, streets and notes
//	238   rules                        a date counts from the day of surgery, an end in weeks
//	112   exceptions                   as places among the dates of their rule
//	154   who has which dates          one name a series, weekday or date
//	455   stamps                       see acts.go: a change that was just named again is half a
//	                                   bit, a new one mostly the next of its device
//	0     the rest                     registers of later versions, as they are
//
// A link that has no more than a program's number has a bit for that, so that what a
// navigator texts is 16 characters.
//
// # What is refused
//
// One document has one link. Decode encodes what it has read, and refuses what comes out
// different: so nobody can hide anything in a link, and equal plans are equal texts. Beyond
// that the document has to pass merge.Doc.Check, and stay within the bounds of form.go.
//
// # Versions
//
// This form never changes: families hold links for months. What would change it makes a
// version 4 beside it, and a page that reads both: the order of the calls, the start values
// of the models (start), any list in here, anything in core/pack. Nothing in the form may
// depend on what can change, so this package has its own numbers for how many facts,
// settings and kinds of duties there are, even where core/plan has them too. What core/plan
// and core/repeat allow may grow and never shrink.
//
// No new version is needed for a new field, fact, setting, kind or duty that every plan
// has: those are registers with numbers that this form has no place for. They go into the
// rest at about ten bytes each, and pages that do not know them keep them and give them
// back (merge.FirstUnknown).
//
// Links of versions 1 and 2 are read (old.go) and never written. A locked link (version 32)
// is opened by the shell, web/lock.ts, where its form is described; here only its checksum
// is looked at. Of a link of a later version the head is shown.
package link
