package pack

// Chances are mixed as logarithms of odds, ln(p/(1-p)), in 1/256: there a sum of
// opinions weighs each by how sure it is (Mahoney 2005, PAQ6's successors).
const (
	unit     = 256
	farthest = 8*unit - 1
)

// ratio is e^(1/256) in 2^-30.
const ratio = 1077944331

var (
	squashed  [2*farthest + 1]uint16 // by logarithm + farthest: the chance in 1/65536, at most 4.5 off
	stretched [4096]int16            // by chance in 1/4096: the logarithm
)

func init() {
	odds := uint64(1) << 30
	for i := range farthest + 1 {
		// odds are at most e^8 in 2^-30, 42 bits
		p := uint16((odds*(certain/2) + (odds+1<<30)/4) / ((odds + 1<<30) / 2))
		squashed[farthest+i] = p
		squashed[farthest-i] = uint16(certain - int(p))
		odds = (odds >> 12) * ratio >> 18
	}
	at := 0
	for i := range stretched {
		for at < 2*farthest && int(squashed[at]) < i*16+8 {
			at++
		}
		stretched[i] = int16(at - farthest)
	}
}

func squash(x int) int { return int(squashed[min(max(x, -farthest), farthest)+farthest]) }

func stretch(p int) int { return int(stretched[p>>4]) }

// chance is a learned probability: its upper 22 bits; how often it was used: the rest.
type chance uint32

func even(p16 int) chance { return chance(p16) << 16 }

func (c chance) p16() int { return int(c >> 16) }

// learn moves a chance towards what happened by 1/(sightings + 1.5), a little faster at
// first than Bit, and in the end, after limit sightings, more slowly.
func (c *chance) learn(v bool, limit int) {
	n, p, goal := int64(*c&1023), int64(*c>>10), int64(0)
	if v {
		goal = 1<<22 - 1
	}
	p = max(p+(goal-p)*2/(2*n+3), 64)
	*c = chance(p)<<10 | chance(min(n+1, int64(limit)))
}
