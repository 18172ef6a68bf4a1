"""What the commands do, as functions from files to results. Nothing here prints, exits or knows a command line."""
