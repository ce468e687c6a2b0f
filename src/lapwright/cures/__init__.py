"""What to cut or set; each cure predicts the engine after it."""
