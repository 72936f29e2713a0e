//go:build !js

package main

func main() {}
