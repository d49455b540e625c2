// Package picture draws. Each picture is a plain value of numbers and short texts, made by
// core/page out of a schedule in the reader's language, and a template (*.qtpl) that prints
// it as SVG; nothing in here knows a plan, a date or a language.
//
// The rules of the pictures:
//   - one unit of the drawing is a pixel at the narrowest: a drawing is Wide units across and
//     is scaled to the room that it has, so its smallest letters are Letter units high;
//   - a picture says nothing that does not also stand in words: it is an img with a name
//     (role, aria-label), and what it shows follows as a list or a table;
//   - nothing is told by colour alone: a shape, a pattern or a letter says the same, in print
//     and in forced colors too;
//   - colours are classes, and the style sheet's tokens give them: a drawing holds no colour;
//   - an id is made from codes and numbers, and begins with the id of its picture;
//   - every text is printed with {%s %}, every number with {%d %} or {%f %}.
package picture

// Wide is the width of a drawing in its own units: that of the text on a phone of 320 pixels.
const Wide = 288

// Letter is the size of the smallest letters in a drawing, in its units.
const Letter = 15
