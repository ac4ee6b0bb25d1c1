// Right behind a place that waits for the form that is the reader's: it is filled before what follows is drawn.
yours.show();
