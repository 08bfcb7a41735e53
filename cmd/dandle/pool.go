package main

import (
	"runtime"
	"sync"
)

// waiting is how many results may wait for each processor: enough for the others
// to go on while one is at a file many times as long as theirs.
const waiting = 16

// inOrder calls work for 0 … n-1 on all processors, and show with the results
// in that order. Few results are waiting at a time, so that memory does not grow
// with n. It ends at the first error of show.
func inOrder[T any](n int, work func(int) T, show func(T) error) error {
	type job struct {
		index int
		done  chan T
	}
	workers := min(runtime.GOMAXPROCS(0), n)
	queue := make(chan job)
	order := make(chan job, waiting*workers)
	stop := make(chan struct{})
	var running sync.WaitGroup
	defer running.Wait()
	defer close(stop)
	running.Go(func() {
		defer close(queue)
		defer close(order)
		for i := range n {
			j := job{index: i, done: make(chan T, 1)}
			select {
			case order <- j:
			case <-stop:
				return
			}
			select {
			case queue <- j:
			case <-stop:
				return
			}
		}
	})
	for range workers {
		running.Go(func() {
			for j := range queue {
				j.done <- work(j.index)
			}
		})
	}
	for j := range order {
		if err := show(<-j.done); err != nil {
			return err
		}
	}
	return nil
}
