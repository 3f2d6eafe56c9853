//! Customers who measure at home: the sheet that tells them how, and what to send them.
