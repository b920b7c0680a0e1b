console.log('Measurements here are counts of work and ratios between two ways of doing it; seconds are only reported.')
