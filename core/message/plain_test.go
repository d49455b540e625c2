package message

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// 3GPP TS 23.038 6.2.1: é, ñ and ü are in the alphabet, á, í, ó and ú are not.
func TestPlainStaysInTheAlphabet(t *testing.T) {
	require.Equal(t, "sabado, 13 de marzo", Plain("sábado, 13 de marzo"))
	require.Equal(t, "miércoles, ñandu, pingüino, ¿que?", Plain("miércoles, ñandú, pingüino, ¿que?"))
	require.Equal(t, `"it's" AIOU`, Plain(`“it’s” ÁÍÓÚ`))
	require.Empty(t, NotGSM(Plain("áíóúÁÍÓÚéñü¿¡“”‘’")))
	require.Equal(t, "日", Plain("日"), "what it does not know stays")
}
