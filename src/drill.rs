//! Practice: customers that the program plays, and what a trainee's choices cost against the best plan.
