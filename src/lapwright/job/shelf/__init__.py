"""The workshop's folder: engines that come, change, are taken back and go."""
