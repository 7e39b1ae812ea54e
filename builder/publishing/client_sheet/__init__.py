"""The sheet that a person takes home: their lessons, days, cautions and trends on paper."""
