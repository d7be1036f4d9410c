"""Speed, measured beside a named peer in the same run; never asserted in a test."""
