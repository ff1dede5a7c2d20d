# Findings.
