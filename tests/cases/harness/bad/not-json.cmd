say {
