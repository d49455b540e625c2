package plan

// Home is the number of the program of the hospital that this copy of the page was made for;
// 0: for nobody in particular. "go run ./build bundle --program FILE" lays a file over this one
// that sets it and adds the program to Programs.
var Home uint16
