// Empty is the least program: what the language itself takes to start.
package main

func main() {}
