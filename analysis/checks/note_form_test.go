package checks

import "testing"

func TestAsEquation(t *testing.T) {
	tests := []struct{ note, want string }{
		{"We see the captain, a large brown otter in a striped jersey, hiding behind the third barrel from the left.", "Captain = hiding behind the third barrel"},
		{"The cook has lost her hat and the hat is now sitting on the head of the very small cat.", "Cook = lost her hat"},
		{"In this spread the reader can see that the old owl is asleep under a huge red umbrella.", "Owl = asleep under a huge red umbrella"},
		{"Everything is upside down.", "Everything = upside down"},
		{"The ship with all of its rooms.", ""},
		{"The cat eats the sprat all alone on the stone at morning, she is orange.", "Cat = eats the sprat all alone"},
		{"The captain.", ""},
		{"", ""},
	}
	for _, tt := range tests {
		if got := asEquation(tt.note); got != tt.want {
			t.Errorf("%q becomes %q, want %q", tt.note, got, tt.want)
		}
	}
}
