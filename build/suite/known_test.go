package suite

import (
	"errors"
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"
)

// Reports as npm 10 writes them (the second seen here, the others from memory).
func TestReadAudit(t *testing.T) {
	answered, found := readAudit(`{"auditReportVersion":2,"vulnerabilities":{},"metadata":{"vulnerabilities":{"info":0,"high":0,"total":0}}}`)
	require.True(t, answered)
	require.Empty(t, found)
	answered, found = readAudit(`{"message": "405 Method Not Allowed - POST", "method": "POST"}`)
	require.False(t, answered)
	require.Contains(t, found, "405")
	answered, found = readAudit(`{"vulnerabilities":{"a":{"severity":"high"}},"metadata":{"vulnerabilities":{"total":1}}}`)
	require.True(t, answered)
	require.Contains(t, found, "a (high)")
	answered, _ = readAudit("")
	require.False(t, answered)
}

func TestReadVulncheck(t *testing.T) {
	ended := func(code string) error { return exec.Command("sh", "-c", "exit "+code).Run() }
	answered, found := readVulncheck("No vulnerabilities found.", nil)
	require.True(t, answered)
	require.Empty(t, found)
	answered, found = readVulncheck("Vulnerability #1", ended("3"))
	require.True(t, answered)
	require.Contains(t, found, "#1")
	answered, found = readVulncheck("govulncheck: fetching vulnerabilities: no such host", ended("1"))
	require.False(t, answered)
	require.Contains(t, found, "no such host")
	answered, _ = readVulncheck("", errors.New("killed"))
	require.False(t, answered)
}
