-- Which parts were replaced, year by year: by place (board and designator), and by the number of the part on all boards
-- (board null). `of_jobs` is how many jobs the year had, on that board or on all. The year is that of the day the board
-- went back, else of the day it came.
-- Standard SQL.
WITH dated AS (
  SELECT shop, log_no, board, EXTRACT(YEAR FROM COALESCE(returned, received)) AS in_year
  FROM jobs
),
by_place AS (
  SELECT DISTINCT d.shop, d.log_no, d.board, w.ref AS part, d.in_year
  FROM dated AS d
  JOIN work AS w ON w.shop = d.shop AND w.log_no = d.log_no
  WHERE w.replaced AND w.ref IS NOT NULL AND d.board IS NOT NULL
),
by_number AS (
  SELECT DISTINCT d.shop, d.log_no, w.part, d.in_year
  FROM dated AS d
  JOIN work AS w ON w.shop = d.shop AND w.log_no = d.log_no
  WHERE w.replaced AND w.part IS NOT NULL
),
board_years AS (SELECT board, in_year, COUNT(*) AS of_jobs FROM dated GROUP BY board, in_year),
years AS (SELECT in_year, COUNT(*) AS of_jobs FROM dated GROUP BY in_year)
SELECT p.board, p.part, p.in_year, COUNT(*) AS jobs, y.of_jobs
FROM by_place AS p
JOIN board_years AS y ON y.board = p.board AND y.in_year IS NOT DISTINCT FROM p.in_year
GROUP BY p.board, p.part, p.in_year, y.of_jobs
UNION ALL
SELECT NULL, n.part, n.in_year, COUNT(*) AS jobs, y.of_jobs
FROM by_number AS n
JOIN years AS y ON y.in_year IS NOT DISTINCT FROM n.in_year
GROUP BY n.part, n.in_year, y.of_jobs
ORDER BY 1, 3, 4 DESC, 2
