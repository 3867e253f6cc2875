"""The walkthrough: a machine shown and told in order, in the minutes there are."""
