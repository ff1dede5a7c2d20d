# Plans, what differs between them and what is wrong in them.
