"""Line drawings of the sample tools: pen, shapes of parts, layout and sheet. Not used by the app."""
