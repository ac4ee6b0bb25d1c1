//! Door 2 to the disk: stages the new output beside the old, then swaps it in whole. The only writer.
