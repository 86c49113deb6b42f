-- Lists name the students who flew last, and read no more of them than they name.
CREATE INDEX students_flew ON students (flew DESC, name);
