-- How many hours a job of a kind takes: returned jobs with hours noted, by board (symptom null) and by board and symptom.
-- Standard SQL; PERCENTILE_CONT is of SQL:2003 (from memory).
WITH noted AS (
  SELECT shop, log_no, board, hours FROM jobs WHERE stage = 'returned' AND hours IS NOT NULL AND board IS NOT NULL
),
kinds AS (
  SELECT board, '' AS symptom_key, hours FROM noted
  UNION ALL
  SELECT n.board, s.symptom, n.hours
  FROM noted AS n
  JOIN symptoms AS s ON s.shop = n.shop AND s.log_no = n.log_no
)
SELECT board, NULLIF(symptom_key, '') AS symptom, COUNT(*) AS jobs,
       MIN(hours) AS shortest,
       PERCENTILE_CONT(0.5) WITHIN GROUP (ORDER BY hours) AS median,
       MAX(hours) AS longest,
       SUM(hours) AS total
FROM kinds
GROUP BY board, symptom_key
ORDER BY 1, 2
