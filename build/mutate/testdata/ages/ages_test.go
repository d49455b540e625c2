package ages

import "testing"

func TestAdult(t *testing.T) {
	for age, want := range map[int]bool{17: false, 18: true, 19: true} {
		if Adult(age) != want {
			t.Error(age)
		}
	}
}

func TestFare(t *testing.T) {
	if Fare(1) != 0 || Fare(10) != 20 {
		t.Error("the fare is wrong")
	}
}

func TestCount(t *testing.T) {
	if Count(3) != 3 || Count(0) != 0 {
		t.Error("miscounted")
	}
}

func TestFirst(t *testing.T) {
	if First(nil) != "" || First([]string{"a", "b"}) != "a" {
		t.Error("not the first")
	}
}

func TestOdd(t *testing.T) {
	for want, numbers := range map[int][]int{1: {1, 3, 5}, 0: {7, 3}, -1: {1, 2}} {
		if got := Odd(numbers); got != want {
			t.Error(numbers, got)
		}
	}
}
